// Package review holds what a standards keeper runs on a rulebook: trials, the
// survey, the impact of an edit, generated jobs, and schemas for editors.
package review

import (
	"example.com/groundrule/pkg/internal/impact"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/internal/schema"
	"example.com/groundrule/pkg/internal/survey"
	"example.com/groundrule/pkg/internal/trial"
)

// What the reviews take and return.
type (
	ImpactOptions  = impact.Options
	SurveyOptions  = survey.Options
	SurveyProgress = survey.Progress
	Within         = survey.Within
	Trial          = trial.Trial
	TrialError     = trial.Error
)

// CodeTwice is the code of a trial whose name is taken.
const CodeTwice = trial.CodeTwice

// The reviews.
var (
	RunImpact      = impact.Run
	RunSurvey      = survey.Run
	RunTrials      = trial.Run
	ReadTrials     = trial.Read
	GenerateJobs   = jobs.Generate
	ReadFolder     = jobs.ReadFolder
	ReadJSONLines  = jobs.ReadJSONLines
	WriteJSONLines = jobs.WriteJSONLines
	Schema         = schema.For
	SchemaKinds    = schema.Kinds
)
