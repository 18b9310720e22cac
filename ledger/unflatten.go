package ledger

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
)

// Unflatten makes a record from fields with their dotted paths, as Flatten
// lists them: Unflatten(Flatten(r)) has the words of r. A path without a
// number after a list of words (with) adds one more entry. An unknown path is
// an error; so is an entry number that leaves a gap.
func Unflatten(fields []KV) (*Record, error) {
	r := &Record{}
	for _, kv := range fields {
		if err := put(plans()[RecordKind], reflect.ValueOf(r).Elem(), kv.Key, kv.Value); err != nil {
			return nil, fmt.Errorf("field %s: %w", kv.Key, err)
		}
	}
	return r, nil
}

func put(p *plan, v reflect.Value, path, words string) error {
	key, rest, _ := strings.Cut(path, ".")
	f := p.find(key)
	if f == nil {
		return fmt.Errorf("no field is named %q", key)
	}
	fv := v.Field(f.index)
	switch f.Kind {
	case Text:
		*fv.Addr().Interface().(*Leaf) = Leaf{Text: words}
		return nil
	case Group:
		return put(f.sub, fv, rest, words)
	case Texts:
		list := fv.Addr().Interface().(*[]Leaf)
		*list = append(*list, Leaf{Text: words})
		return nil
	case Pairs:
		pairs := fv.Addr().Interface().(*[]Pair)
		*pairs = append(*pairs, Pair{Key: rest, Value: Leaf{Text: words}})
		return nil
	}
	at, rest, _ := strings.Cut(rest, ".")
	n, err := strconv.Atoi(at)
	if err != nil || n < 1 || n > fv.Len()+1 {
		return fmt.Errorf("%q is not the number of one of %d entries, nor the next", at, fv.Len())
	}
	if n > fv.Len() {
		fv.Set(reflect.Append(fv, reflect.Zero(fv.Type().Elem())))
	}
	return put(f.sub, fv.Index(n-1), rest, words)
}
