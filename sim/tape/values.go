package tape

import (
	"encoding/binary"
	"errors"
	"math"
	"math/bits"
)

// Recorded is a result that can be recorded. Its one method names each of its numbers and texts, in
// an order of its own, whether they are written or read: so the two cannot differ.
type Recorded interface{ Values(v *Values) }

// Values writes or reads the numbers of results, most of which are zero.
//
// Zeros in a row are a 0 and their number. A whole number is a varint, which never begins with 0. A
// floating-point number is the number of its leading bytes that are not all zero, 1 to 8, and these
// bytes. A text is the number that it got when it was first written, from 1 on, and that time followed
// by its length and itself.
type Values struct {
	reading bool
	data    []byte
	at      int            // of what is read
	zeros   uint64         // in a row, not written or read yet
	texts   []string       // by number
	numbers map[string]int // of texts that are written
	err     error
}

// errMalformed is what is wrong with records that no writer has written.
var errMalformed = errors.New("what is recorded cannot be read")

// Reading reports whether values are read rather than written.
func (v *Values) Reading() bool { return v.reading }

// Int writes or reads a whole number.
func (v *Values) Int(x *int64) {
	switch {
	case v.reading:
		*x = 0
		if !v.zero() {
			*x = v.varint()
		}
	case *x == 0:
		v.zeros++
	default:
		v.flush()
		v.data = binary.AppendVarint(v.data, *x)
	}
}

// Ints writes or reads whole numbers.
func (v *Values) Ints(all []int64) {
	for i := range all {
		v.Int(&all[i])
	}
}

// Float writes or reads a floating-point number, all its bits.
func (v *Values) Float(x *float64) {
	if v.reading {
		*x = 0
		if !v.zero() {
			*x = math.Float64frombits(v.bits())
		}
		return
	}
	b := math.Float64bits(*x)
	if b == 0 {
		v.zeros++
		return
	}
	v.flush()
	n := 8 - bits.TrailingZeros64(b)/8
	v.data = append(v.data, byte(n))
	v.data = binary.BigEndian.AppendUint64(v.data, b)
	v.data = v.data[:len(v.data)-8+n]
}

// Text writes or reads a text: a name, of which there are few.
func (v *Values) Text(s *string) {
	number := int64(v.numbers[*s])
	if v.reading {
		number = 0
	}
	fresh := number == 0
	if fresh && !v.reading {
		number = int64(len(v.texts) + 1)
	}
	v.Int(&number)
	if v.reading {
		*s = v.textRead(number)
		return
	}
	if !fresh {
		return
	}
	if v.numbers == nil {
		v.numbers = map[string]int{}
	}
	v.texts = append(v.texts, *s)
	v.numbers[*s] = int(number)
	length := int64(len(*s))
	v.Int(&length)
	v.flush()
	v.data = append(v.data, *s...)
}

func (v *Values) textRead(number int64) string {
	if number >= 1 && number <= int64(len(v.texts)) {
		return v.texts[number-1]
	}
	if number != int64(len(v.texts)+1) {
		v.fail()
		return ""
	}
	length := int64(0)
	v.Int(&length)
	if length < 0 || length > int64(len(v.data)-v.at) {
		v.fail()
		return ""
	}
	s := string(v.data[v.at : v.at+int(length)])
	v.at += int(length)
	v.texts = append(v.texts, s)
	return s
}

// mostLong is more than the longest list of any result.
const mostLong = 1 << 20

// Len writes or reads the length of a list, and returns it.
func (v *Values) Len(n int) int {
	length := int64(n)
	v.Int(&length)
	if length < 0 || length > mostLong {
		v.fail()
		return 0
	}
	return int(length)
}

// Slice writes or reads a list: its length, and each item by its method. What is read takes
// the place of what the list holds.
func Slice[T any](v *Values, list *[]T, item func(*T)) {
	n := v.Len(len(*list))
	if v.reading {
		*list = (*list)[:0]
	}
	for i := range n {
		if v.reading {
			if v.err != nil {
				return
			}
			if len(*list) < cap(*list) { // whose memory, and lists within, are used again
				*list = (*list)[:i+1]
			} else {
				var fresh T
				*list = append(*list, fresh)
			}
		}
		item(&(*list)[i])
	}
}

// flush writes the zeros that are waiting.
func (v *Values) flush() {
	if v.zeros > 0 {
		v.data = append(v.data, 0)
		v.data = binary.AppendUvarint(v.data, v.zeros)
		v.zeros = 0
	}
}

// zero reports whether the next value is a zero, and takes it.
func (v *Values) zero() bool {
	if v.err != nil {
		return true
	}
	if v.zeros == 0 {
		if v.at >= len(v.data) {
			v.fail()
			return true
		}
		if v.data[v.at] != 0 {
			return false
		}
		n, size := binary.Uvarint(v.data[v.at+1:])
		if size <= 0 || n == 0 {
			v.fail()
			return true
		}
		v.at, v.zeros = v.at+1+size, n
	}
	v.zeros--
	return true
}

func (v *Values) varint() int64 {
	x, size := binary.Varint(v.data[v.at:])
	if size <= 0 {
		v.fail()
		return 0
	}
	v.at += size
	return x
}

func (v *Values) bits() (b uint64) {
	n := int(v.data[v.at])
	if n > 8 || v.at+1+n > len(v.data) {
		v.fail()
		return 0
	}
	var whole [8]byte
	copy(whole[:], v.data[v.at+1:v.at+1+n])
	v.at += 1 + n
	return binary.BigEndian.Uint64(whole[:])
}

func (v *Values) fail() {
	if v.err == nil {
		v.err = errMalformed
	}
}

// begin makes ready to write the records of another block.
func (v *Values) begin() {
	v.data, v.texts, v.zeros = v.data[:0], v.texts[:0], 0
	clear(v.numbers)
}

// over returns what is wrong with a block whose records were all read: there must be no more in it.
func (v *Values) over() error {
	if v.err == nil && (v.zeros > 0 || v.at < len(v.data)) {
		v.fail()
	}
	return v.err
}
