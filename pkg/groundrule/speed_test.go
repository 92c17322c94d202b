package groundrule_test

import (
	"testing"

	"example.com/groundrule/pkg/groundrule"
)

func BenchmarkOpenStandard(b *testing.B) {
	for b.Loop() {
		if _, err := groundrule.OpenStandard(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDesign(b *testing.B) {
	book, err := groundrule.Standard()
	if err != nil {
		b.Fatal(err)
	}
	j := job("car_driveway", "dense", 4)
	for b.Loop() {
		if _, err := book.Design(j); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSection(b *testing.B) {
	book, err := groundrule.Standard()
	if err != nil {
		b.Fatal(err)
	}
	j := job("car_driveway", "dense", 4)
	for b.Loop() {
		d, err := book.Design(j)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := d.Section(); err != nil {
			b.Fatal(err)
		}
	}
}
