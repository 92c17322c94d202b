// Package deep copies data, so that what a caller is handed, or hands over, can
// be changed without changing anything else.
package deep

import "reflect"

// Copy returns a copy that shares nothing with x that could be changed: what
// pointers, slices, maps and exported fields lead to is copied too. What an
// interface or an unexported field holds is shared; it must be of a type that
// cannot be changed from outside.
func Copy[T any](x T) T {
	part(reflect.ValueOf(&x).Elem())
	return x
}

// part puts copies in the place of all that v shares with what it was copied from.
func part(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			to := reflect.New(v.Type().Elem())
			to.Elem().Set(v.Elem())
			part(to.Elem())
			v.Set(to)
		}
	case reflect.Slice:
		if !v.IsNil() {
			to := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
			reflect.Copy(to, v)
			for i := range to.Len() {
				part(to.Index(i))
			}
			v.Set(to)
		}
	case reflect.Map:
		if !v.IsNil() {
			to := reflect.MakeMap(v.Type())
			for each := v.MapRange(); each.Next(); {
				held := reflect.New(v.Type().Elem()).Elem()
				held.Set(each.Value())
				part(held)
				to.SetMapIndex(each.Key(), held)
			}
			v.Set(to)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				part(v.Field(i))
			}
		}
	}
}
