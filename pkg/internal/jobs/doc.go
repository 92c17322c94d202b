// Package jobs makes up jobs, and reads and writes whole archives of them, for
// whoever runs an edited rulebook over many jobs.
//
// [Generate] makes up plausible jobs, so that a company with no archive of its
// own can see what an edit would change. How often each use, soil or winter
// comes is demonstration data of this project: it stands for no region, no
// company and no count of any kind. [Any] draws from everything that a job file
// can say, the absurd included, for tests of a rulebook.
//
// An archive is a file with one job on each line, in the JSON form of a job
// file ([WriteJSONLines], [ReadJSONLines]), or a folder of job files
// ([ReadFolder]).
package jobs
