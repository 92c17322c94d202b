package groundrule_test

// wrong is a fault that is known: what it is, and a job that shows it.
type wrong struct{ what, job string }

// stillWrong are the sentences of the oracle and the properties that the standard
// rulebook breaks. The list only shrinks.
var stillWrong = map[string]wrong{}
