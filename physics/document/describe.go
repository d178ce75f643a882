package document

import "strconv"

// Describe returns what a declaration says of every key, in its order, with
// the variables' present values as defaults. A required key has no default.
func Describe(declare func(m *Mapping)) []Field {
	d := &describing{}
	declare(&Mapping{pass: d})
	return d.finished()
}

type describing struct {
	fields   []Field
	required map[string]bool
}

func (d *describing) finished() []Field {
	for i, f := range d.fields {
		if d.required[f.Key] {
			d.fields[i].Required, d.fields[i].Default = true, nil
		}
	}
	return d.fields
}

func (d *describing) given(string) bool { return true }

func (d *describing) need(keys []string) {
	if d.required == nil {
		d.required = map[string]bool{}
	}
	for _, k := range keys {
		d.required[k] = true
	}
}

func (d *describing) value(f Field, variable any) {
	f.Default = present(f, variable)
	d.fields = append(d.fields, f)
}

// present is what a variable holds, in the unit of the file.
func present(f Field, variable any) any {
	switch v := variable.(type) {
	case *float64:
		return inFile(*v, f.Limit)
	case **float64:
		if *v != nil {
			return inFile(**v, f.Limit)
		}
	case *int:
		return *v
	case *bool:
		return *v
	case *string:
		return *v
	}
	return nil
}

func inFile(v float64, l Limit) float64 {
	w, _ := strconv.ParseFloat(figure(v, l), 64)
	return w
}

func (d *describing) either(shared, first, second Field, a, b *float64) {
	d.value(shared, a)
	d.value(first, a)
	d.value(second, b)
}

func (d *describing) mapping(f Field, declare func(p pass)) {
	inner := &describing{}
	declare(inner)
	f.Fields = inner.finished()
	d.fields = append(d.fields, f)
}

func (d *describing) list(f Field, _ int, _ func(n int), entry func(i int, p pass)) {
	inner := &describing{}
	entry(-1, inner)
	f.Fields = inner.finished()
	d.fields = append(d.fields, f)
}
