package published

import (
	"os"
	"testing"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// Test checks every row of a file against the calculations, each as a subtest,
// and logs how many rows were read, relayed, recalled and worked by a second
// route. A row that is none of these fails.
func Test(t *testing.T, path string, functions []calculation.Function) {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := Read(file)
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) == 0 {
		t.Fatalf("%s holds no rows", path)
	}
	count := map[value.Known]int{}
	for _, row := range rows {
		count[row.Known]++
		t.Run(row.Name, func(t *testing.T) {
			switch row.Known {
			case value.Seen, value.Relayed, value.Memory, value.Computed:
			default:
				t.Errorf("a value that is %s is neither published nor worked by a second route", row.Known)
			}
			if err := row.Check(functions); err != nil {
				t.Error(err)
			}
		})
	}
	t.Logf("%d rows: %d seen, %d relayed, %d from memory, %d computed", len(rows),
		count[value.Seen], count[value.Relayed], count[value.Memory], count[value.Computed])
}
