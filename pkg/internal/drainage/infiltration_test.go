package drainage_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/drainage"
)

// Where the Minnesota manual gives only a bound, no rate is made of it.
func TestMinnesotaGivesNoRateForClay(t *testing.T) {
	for _, texture := range []drainage.Texture{drainage.TextureClayLoam, drainage.TextureSiltyClay, drainage.TextureClay} {
		_, err := drainage.InfiltrationMinnesota(texture)
		require.ErrorIs(t, err, drainage.ErrCannotTell, texture)
		group, err := drainage.HydrologicGroupMinnesota(texture)
		require.NoError(t, err)
		require.Equal(t, drainage.GroupD, group)
	}
	_, err := drainage.InfiltrationMinnesotaByGroup(drainage.GroupD)
	require.ErrorIs(t, err, drainage.ErrCannotTell)
	var outside *calculation.WordError
	_, err = drainage.InfiltrationMinnesota(drainage.TextureSandyLoam)
	require.ErrorAs(t, err, &outside, "not recorded from the manual")
	_, err = drainage.ConductivityRawls(drainage.TextureGravel)
	require.ErrorAs(t, err, &outside, "not in the table")
}

func TestDualGroups(t *testing.T) {
	for _, c := range []struct{ group, drained, undrained drainage.HydrologicGroup }{
		{drainage.GroupA, drainage.GroupA, drainage.GroupA},
		{drainage.GroupAD, drainage.GroupA, drainage.GroupD},
		{drainage.GroupBD, drainage.GroupB, drainage.GroupD},
		{drainage.GroupCD, drainage.GroupC, drainage.GroupD},
	} {
		drained, err := drainage.DrainedGroup(c.group)
		require.NoError(t, err)
		require.Equal(t, c.drained, drained)
		undrained, err := drainage.UndrainedGroup(c.group)
		require.NoError(t, err)
		require.Equal(t, c.undrained, undrained)
	}
	var outside *calculation.WordError
	_, err := drainage.InfiltrationLeastTR55(drainage.GroupBD)
	require.ErrorAs(t, err, &outside, "a dual group must be told drained or undrained first")
	_, err = drainage.DrainedGroup("E")
	require.ErrorAs(t, err, &outside)
}

// Every word of a vocabulary is known to the tables that take it, by a rate or
// by an error that says why not.
func TestRatesFallFromFastToSlow(t *testing.T) {
	last := inchesPerHour(1000)
	for _, w := range drainage.Texture("").Vocabulary().Words[1:] {
		rate, err := drainage.ConductivityRawls(drainage.Texture(w.Label))
		require.NoError(t, err, w.Label)
		require.Less(t, rate, last, w.Label)
		last = rate
	}
	last = inchesPerHour(1000)
	for _, group := range []drainage.HydrologicGroup{drainage.GroupA, drainage.GroupB, drainage.GroupC, drainage.GroupD} {
		least, err := drainage.InfiltrationLeastTR55(group)
		require.NoError(t, err)
		most, err := drainage.InfiltrationMostTR55(group)
		require.NoError(t, err)
		require.Less(t, least, most)
		require.LessOrEqual(t, most, last)
		last = least
	}
}
