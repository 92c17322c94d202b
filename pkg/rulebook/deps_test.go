package rulebook

import (
	_ "github.com/google/go-cmp/cmp"
	_ "github.com/stretchr/testify/require"
)
