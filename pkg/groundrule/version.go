package groundrule

// Version is the version of this library. Every section carries it: the
// calculations belong to the library, so that the rule files alone do not pin a
// result.
const Version = "0.2.0-dev"
