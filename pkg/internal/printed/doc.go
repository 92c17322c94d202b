// Package printed makes of a compiled rulebook a document for people: every
// entry with its condition in plain English, what amendments changed in it, and
// where each thing comes from. It writes the document as Markdown and as one
// file of HTML.
package printed
