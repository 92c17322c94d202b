// Package deep copies data, so that what a caller is handed, or hands over, can
// be changed without changing anything else.
package deep

import "reflect"

// Copy returns a copy that shares nothing with x that could be changed: what
// pointers, slices, maps and exported fields lead to is copied too. What an
// interface or an unexported field holds is shared; it must be of a type that
// cannot be changed from outside.
func Copy[T any](x T) T {
	return copied(reflect.ValueOf(&x).Elem()).Interface().(T)
}

func copied(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	out.Set(v)
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			out.Set(reflect.New(v.Type().Elem()))
			out.Elem().Set(copied(v.Elem()))
		}
	case reflect.Slice:
		if !v.IsNil() {
			out.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
			for i := range v.Len() {
				out.Index(i).Set(copied(v.Index(i)))
			}
		}
	case reflect.Map:
		if !v.IsNil() {
			out.Set(reflect.MakeMap(v.Type()))
			for each := v.MapRange(); each.Next(); {
				out.SetMapIndex(each.Key(), copied(each.Value()))
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				out.Field(i).Set(copied(v.Field(i)))
			}
		}
	}
	return out
}
