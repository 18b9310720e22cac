package book

import (
	"reflect"
	"testing"
)

// TestSlim: a part is given up only when nothing at all stands in it, whatever
// fields it has.
func TestSlim(t *testing.T) {
	empty := newEntry()
	if empty.slim(); empty.Seldom != noSeldom || empty.SeldomJudged != noSeldomJudged {
		t.Error("an empty entry keeps parts of its own")
	}
	for _, part := range []func(*Entry) any{func(e *Entry) any { return e.Seldom }, func(e *Entry) any { return e.SeldomJudged }} {
		fields := reflect.TypeOf(part(&empty)).Elem()
		for i := range fields.NumField() {
			e := newEntry()
			set(reflect.ValueOf(part(&e)).Elem().Field(i))
			if e.slim(); reflect.ValueOf(part(&e)).Elem().Field(i).IsZero() {
				t.Errorf("%s.%s is lost", fields.Name(), fields.Field(i).Name)
			}
		}
	}
	if !reflect.ValueOf(*noSeldom).IsZero() || !reflect.ValueOf(*noSeldomJudged).IsZero() {
		t.Error("what all empty entries have in common is not empty")
	}
}

// set gives a field some value that is not zero.
func set(v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		v.SetString("x")
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Struct:
		set(v.Field(0))
	default:
		v.SetInt(1)
	}
}
