package inside_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)
