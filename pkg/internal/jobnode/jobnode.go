// Package jobnode is how a file that holds jobs among other things, such as one
// of trials, has them read by package site without site showing how files are
// read.
package jobnode

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
)

// Company is the key of a job under which the answers to a company's questions stand.
const Company = "company"

// Read reads a job that stands in a document, with changes laid over it, as a
// *site.Site. Package site sets it; its errors are those of site.Read.
var Read func(file string, job *document.Node, changes ...*document.Node) (any, error)

// Move says where the places of a *site.Site are for people that was read from a
// part of a file, such as a line.
var Move func(job any, to func(diagnostic.Place) diagnostic.Place)
