package film

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
)

// The data of a film: the length of its head, the head as JSON, and the columns, one after the
// other; all of it as gzip has it (RFC 1952). Integers are written as protocol buffers have them
// (variable length, signs folded in), which is what encoding/binary calls a varint.

// head is all that is not in columns.
type head struct {
	Film
	Words  []string `json:"words"`
	Tables []table  `json:"tables"`
}

// coder packs a film, or unpacks one.
type coder struct {
	packing    bool
	body       []byte // packed, or not yet unpacked
	head       head
	places     map[string]int64 // of the words
	reel, line int
	err        error
}

// Pack returns the film as data. Times are rounded to a ms but for the starts of runs, so that all
// counts are those of the film to the last set.
func (f *Film) Pack() ([]byte, error) {
	c := &coder{packing: true, places: map[string]int64{}}
	c.columns(f)
	c.head.Film = *f
	top, err := json.Marshal(c.head)
	if err != nil {
		return nil, err
	}
	var packed bytes.Buffer
	z, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	for _, part := range [][]byte{binary.AppendUvarint(nil, uint64(len(top))), top, c.body} {
		if _, err := z.Write(part); err != nil {
			return nil, err
		}
	}
	err = z.Close()
	return packed.Bytes(), err
}

// Unpack returns the film that Pack has packed, or an error if the data are none.
func Unpack(data []byte) (*Film, error) {
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	body, err := io.ReadAll(z)
	if err != nil {
		return nil, err
	}
	n, width := binary.Uvarint(body)
	if width <= 0 || n > uint64(len(body)-width) {
		return nil, errors.New("film: the head is cut off")
	}
	c := &coder{body: body[width+int(n):]}
	if err := json.Unmarshal(body[width:width+int(n)], &c.head); err != nil {
		return nil, fmt.Errorf("film: %w", err)
	}
	f := c.head.Film
	c.columns(&f)
	if c.err == nil && len(c.body) > 0 {
		c.err = errors.New("film: there is something after the last column")
	}
	return &f, c.err
}

// rows begins a table, and returns its rows: those to be packed, or new ones.
func rows[T any](c *coder, name string, all *[]T) []T {
	if c.packing {
		c.head.Tables = append(c.head.Tables, table{Name: name, Reel: c.reel, Line: c.line, Rows: len(*all)})
		return *all
	}
	if c.err != nil {
		return nil
	}
	if len(c.head.Tables) == 0 || c.head.Tables[0].Name != name || c.head.Tables[0].Rows < 0 || c.head.Tables[0].Rows > len(c.body) {
		c.err = fmt.Errorf("film: no table of %s where one is wanted", name)
		return nil
	}
	if n := c.head.Tables[0].Rows; n > 0 {
		*all = make([]T, n)
	}
	c.head.Tables = c.head.Tables[1:]
	return *all
}

// begin begins a column of the last table.
func (c *coder) begin(name string, as writing) {
	if c.packing {
		t := &c.head.Tables[len(c.head.Tables)-1]
		t.Columns = append(t.Columns, column{name, as})
	}
}

// integers codes a column of integers, which at and set reach by their place.
func (c *coder) integers(n int, at func(i int) int64, set func(i int, v int64)) {
	last := int64(0)
	for i := range n {
		if c.packing {
			v := at(i)
			c.body = binary.AppendVarint(c.body, v-last)
			last = v
			continue
		}
		v, width := binary.Varint(c.body)
		if width <= 0 {
			c.err = errors.New("film: a column is cut off")
			return
		}
		c.body = c.body[width:]
		last += v
		set(i, last)
	}
}

func numbers[T any, N ~int | ~int64](c *coder, all []T, name string, field func(*T) *N) {
	c.begin(name, whole)
	c.integers(len(all), func(i int) int64 { return int64(*field(&all[i])) }, func(i int, v int64) { *field(&all[i]) = N(v) })
}

func moments[T any](c *coder, all []T, name string, field func(*T) *float64) {
	c.begin(name, moment)
	c.integers(len(all), func(i int) int64 { return int64(math.Round(*field(&all[i]) * 1000)) }, func(i int, v int64) { *field(&all[i]) = float64(v) / 1000 })
}

func words[T any](c *coder, all []T, name string, field func(*T) *string) {
	c.begin(name, word)
	c.integers(len(all), func(i int) int64 { return c.place(*field(&all[i])) }, func(i int, v int64) {
		if v < 0 || v >= int64(len(c.head.Words)) {
			c.err = errors.New("film: there is no such word")
			return
		}
		*field(&all[i]) = c.head.Words[v]
	})
}

// place returns the place of a word among the words.
func (c *coder) place(word string) int64 {
	at, known := c.places[word]
	if !known {
		at = int64(len(c.head.Words))
		c.places[word] = at
		c.head.Words = append(c.head.Words, word)
	}
	return at
}

func exacts[T any](c *coder, all []T, name string, field func(*T) *float64) {
	c.begin(name, exact)
	for i := range all {
		if c.packing {
			c.body = binary.LittleEndian.AppendUint64(c.body, math.Float64bits(*field(&all[i])))
			continue
		}
		if len(c.body) < 8 {
			c.err = errors.New("film: a column is cut off")
			return
		}
		*field(&all[i]) = math.Float64frombits(binary.LittleEndian.Uint64(c.body))
		c.body = c.body[8:]
	}
}
