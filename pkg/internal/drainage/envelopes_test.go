package drainage_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/drainage"
)

// The envelopes that the tests use, with how each is known.
const (
	// ASTM D448 / AASHTO M 43: No. 2 and No. 9 from memory, No. 89 seen but for
	// No. 16 (0-10 from memory, one copy prints 0-5), the others seen in
	// Colorado DOT Table 703-1.
	no2  = "3 in: 100, 2-1/2 in: 90-100, 2 in: 35-70, 1-1/2 in: 0-15, 3/4 in: 0-5"
	no3  = "2-1/2 in: 100, 2 in: 90-100, 1-1/2 in: 35-70, 1 in: 0-15, 1/2 in: 0-5"
	no57 = "1-1/2 in: 100, 1 in: 95-100, 1/2 in: 25-60, No. 4: 0-10, No. 8: 0-5"
	no67 = "1 in: 100, 3/4 in: 90-100, 3/8 in: 20-55, No. 4: 0-10, No. 8: 0-5"
	no8  = "1/2 in: 100, 3/8 in: 85-100, No. 4: 10-30, No. 8: 0-10, No. 16: 0-5"
	no89 = "1/2 in: 100, 3/8 in: 90-100, No. 4: 20-55, No. 8: 5-30, No. 16: 0-10, No. 50: 0-5"
	no9  = "3/8 in: 100, No. 4: 85-100, No. 8: 10-40, No. 16: 0-10, No. 50: 0-5"
	// ASTM C33 fine aggregate, from memory.
	c33 = "3/8 in: 100, No. 4: 95-100, No. 8: 80-100, No. 16: 50-85, No. 30: 25-60, No. 50: 5-30, No. 100: 0-10, No. 200: 0-3"
	// CSA A23.1 FA1, from memory.
	fa1 = "10 mm: 100, 5 mm: 95-100, 2.5 mm: 80-100, 1.25 mm: 50-90, 0.63 mm: 25-65, 0.315 mm: 10-35, 0.16 mm: 2-10"
	// ASTM C144 natural sand, from memory.
	c144 = "No. 4: 100, No. 8: 95-100, No. 16: 70-100, No. 30: 40-75, No. 50: 10-35, No. 100: 2-15, No. 200: 0-5"
	// ASTM D2940, from memory.
	d2940Base    = "2 in: 100, 1-1/2 in: 95-100, 3/4 in: 70-92, 3/8 in: 50-70, No. 4: 35-55, No. 30: 12-25, No. 200: 0-8"
	d2940Subbase = "2 in: 100, 1-1/2 in: 90-100, No. 4: 30-60, No. 200: 0-12"
)

func gradation(t testing.TB, text string) drainage.Gradation {
	t.Helper()
	g, err := drainage.ParseGradation(text)
	require.NoError(t, err)
	return g
}
