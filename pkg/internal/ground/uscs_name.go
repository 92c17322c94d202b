package ground

import "strings"

// Limits of the group names, ASTM D2487 (from memory), in whole percent.
const (
	nameWithFrom = 15 // sand in a gravel, gravel in a sand, coarse in a fine soil
	namePlusFrom = 30 // coarse in a fine soil from which it is "sandy" or "gravelly"
)

// fineName adds to the name of a fine soil what is coarser than the No. 200.
func fineName(base string, z sieve, s Sample) string {
	coarse := z.gravel + z.sand
	sandy := z.sand >= z.gravel
	var with []string
	switch {
	case coarse >= namePlusFrom && sandy:
		base = "sandy " + base
		if z.gravel >= nameWithFrom {
			with = append(with, "gravel")
		}
	case coarse >= namePlusFrom:
		base = "gravelly " + base
		if z.sand >= nameWithFrom {
			with = append(with, "sand")
		}
	case coarse >= nameWithFrom && sandy:
		with = append(with, "sand")
	case coarse >= nameWithFrom:
		with = append(with, "gravel")
	}
	return withWords(base, append(with, s.oversize()...))
}

// coarseName adds to the name of a gravel its sand, to that of a sand its
// gravel, and to either its fines.
func coarseName(g Group, z sieve, kind Fines, organic bool, s Sample) string {
	base, fines, dual := strings.Cut(g.Name(), " with ")
	var with []string
	if dual {
		if kind == SiltyClayeyFines {
			fines = "silty clay"
		}
		with = append(with, fines)
	}
	if gravel := strings.HasPrefix(string(g), "G"); gravel && z.sand >= nameWithFrom {
		with = append(with, "sand")
	} else if !gravel && z.gravel >= nameWithFrom {
		with = append(with, "gravel")
	}
	if organic {
		with = append(with, "organic fines")
	}
	return withWords(base, append(with, s.oversize()...))
}

func (s Sample) oversize() []string {
	var with []string
	if s.Cobbles {
		with = append(with, "cobbles")
	}
	if s.Boulders {
		with = append(with, "boulders")
	}
	return with
}

// withWords joins "base with a, b and c".
func withWords(base string, with []string) string {
	switch n := len(with); n {
	case 0:
		return base
	case 1:
		return base + " with " + with[0]
	default:
		return base + " with " + strings.Join(with[:n-1], ", ") + " and " + with[n-1]
	}
}
