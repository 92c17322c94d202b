package diagnostic

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestRuneWidth holds the blocks that a terminal shows two columns wide, to their
// first and last characters (from memory, as the table is).
func TestRuneWidth(t *testing.T) {
	for _, c := range []struct {
		name, why   string
		first, last rune
	}{
		{"Hangul letters", "the first half of the block", 0x1100, 0x115F},
		{"watch and hourglass", "wide among narrow signs", 0x231A, 0x231B},
		{"radicals and punctuation", "up to the half space of the block", 0x2E80, 0x303E},
		{"kana to ideographs", "three blocks without a gap", 0x3041, 0x4DBF},
		{"ideographs", "the main block, and Yi behind it", 0x4E00, 0xA4CF},
		{"old Hangul", "the extended letters", 0xA960, 0xA97F},
		{"Hangul syllables", "all of them", 0xAC00, 0xD7A3},
		{"compatible ideographs", "the whole block", 0xF900, 0xFAFF},
		{"upright forms", "two blocks", 0xFE30, 0xFE6F},
		{"full width", "the letters, and not the half width behind them", 0xFF00, 0xFF60},
		{"full width signs", "currencies", 0xFFE0, 0xFFE6},
		{"pictures", "to the faces", 0x1F300, 0x1F64F},
		{"vehicles", "signs of transport", 0x1F680, 0x1F6FF},
		{"more pictures", "the later ones", 0x1F900, 0x1FAFF},
		{"rare ideographs", "two planes", 0x20000, 0x3FFFD},
	} {
		t.Run(c.name, func(t *testing.T) {
			for r := c.first; r <= c.last; r++ {
				if w := runeWidth(r); w != 2 && w != 0 { // accents within a block take no column
					t.Fatalf("%U is %d wide: %s", r, w, c.why)
				}
			}
			require.NotEqual(t, 2, runeWidth(c.first-1))
			require.NotEqual(t, 2, runeWidth(c.last+1))
		})
	}
	require.Equal(t, 0, runeWidth('\u0301'), "an accent takes no column of its own")
	require.Equal(t, 1, runeWidth('a'))
}
