package setup

import (
	"netrate/model"
	"netrate/model/formats"
)

// Cover returns how each product fits each line: a row for each product, a column for
// each line. The clearance is that of [Line.Fitted].
func Cover(lines []*model.Line, products []*Product, clearance ...formats.Clearance) [][]*Fit {
	table := make([][]*Fit, len(products))
	for i, p := range products {
		table[i] = make([]*Fit, len(lines))
		for k, l := range lines {
			_, table[i][k] = Fitted(l, p, clearance...)
		}
	}
	return table
}
