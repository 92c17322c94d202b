package main

var bookCommand = &command{
	name:  "book",
	usage: "groundrule book COMMAND ...",
	about: "what a standards keeper runs on a rulebook: check, trials, survey, impact",
	text: `Everything about a rulebook itself: the standard one, or a company's own (--rules), with a
company's amendments over it (--amend). After each edit of the amendments in a folder ours:

  groundrule book check --amend ours             are the files without faults?
  groundrule book trials --amend ours            do the trials still pass?
  groundrule book impact --amend ours past_jobs  what would change on past jobs?
  groundrule book survey --amend ours            is any job left without an answer?
`,
}

func init() {
	bookCommand.under = []*command{bookCheckCommand, bookTrialsCommand, bookSurveyCommand, bookImpactCommand, bookJobsCommand, bookSchemaCommand}
}
