package tape

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
)

// The file of a shard is its magic line and chunks, each with a letter, its length, its data and
// the sum of these (CRC-32C): first a head, which is up to whoever asks; then segments, each the
// results of some replications in a row of one stage, with their blocks after them; last an end that
// says how many chunks there are.
const magic = "netrate shard 1\n"

const (
	headChunk    = 'H'
	segmentChunk = 'S'
	blockChunk   = 'B'
	endChunk     = 'E'
)

// How much is in one block: of the records, before they are compressed, unless one alone is longer; how many they
// are; and the most that anybody can have written. Of blocks some are in memory at a time: see [Stage.Blocks].
const (
	blockBytes   = 1 << 16
	blockRecords = 1 << 10
	mostChunk    = 1 << 28
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// segment is the results of replications in a row, of one stage.
type segment struct {
	stage       string
	kind        string // of results
	first, last int    // replications; last is the one after
}

// Writer writes the file of a shard.
type Writer struct {
	to     io.Writer
	chunks int
	err    error

	values  Values
	records int // in the block
	packed  bytes.Buffer
	packer  *flate.Writer
	Records int64 // that were written in all
}

// NewWriter writes the beginning of a file.
func NewWriter(to io.Writer, head []byte) *Writer {
	w := &Writer{to: to}
	w.packer, w.err = flate.NewWriter(&w.packed, flate.BestSpeed)
	if w.err == nil {
		_, w.err = io.WriteString(to, magic)
	}
	w.chunk(headChunk, head)
	return w
}

// begin begins a segment.
func (w *Writer) begin(s segment) {
	data := binary.AppendUvarint(nil, uint64(s.first))
	data = binary.AppendUvarint(data, uint64(s.last))
	w.chunk(segmentChunk, fmt.Appendf(data, "%s %s", s.stage, s.kind))
	w.values.begin()
	w.records = 0
}

// record writes one result.
func (w *Writer) record(r Recorded) {
	r.Values(&w.values)
	w.records++
	w.Records++
	if len(w.values.data) >= blockBytes || w.records == blockRecords {
		w.block()
	}
}

// block writes the records that are waiting.
func (w *Writer) block() {
	if w.records == 0 || w.err != nil {
		return
	}
	w.values.flush()
	w.packed.Reset()
	w.packed.Write(binary.AppendUvarint(nil, uint64(w.records)))
	w.packer.Reset(&w.packed)
	if _, w.err = w.packer.Write(w.values.data); w.err == nil {
		w.err = w.packer.Close()
	}
	w.chunk(blockChunk, w.packed.Bytes())
	w.values.begin()
	w.records = 0
}

// Close writes the end of the file, and returns what went wrong with any of it.
func (w *Writer) Close() error {
	w.chunk(endChunk, binary.AppendUvarint(nil, uint64(w.chunks)))
	return w.err
}

func (w *Writer) chunk(letter byte, data []byte) {
	if w.err != nil {
		return
	}
	head := binary.AppendUvarint([]byte{letter}, uint64(len(data)))
	sum := crc32.Update(crc32.Checksum(head, castagnoli), castagnoli, data)
	for _, part := range [][]byte{head, data, binary.BigEndian.AppendUint32(nil, sum)} {
		if _, err := w.to.Write(part); err != nil {
			w.err = err
			return
		}
	}
	w.chunks++
}

// chunkAt is where a chunk of a file stands.
type chunkAt struct {
	letter byte
	at     int64 // of its data
	length int
	head   []byte // its letter and length, which its sum is of too
}

func (c chunkAt) end() int64 { return c.at + int64(c.length) + crc32.Size }

// chunkOf reads where the chunk at a place stands, of a file that is so long.
func chunkOf(from io.ReaderAt, at, size int64) (c chunkAt, err error) {
	head := make([]byte, min(1+binary.MaxVarintLen64, max(0, size-at)))
	if _, err := from.ReadAt(head, at); err != nil && err != io.EOF {
		return c, err
	}
	if len(head) < 2 {
		return c, errCut(size)
	}
	length, n := binary.Uvarint(head[1:])
	switch {
	case n == 0:
		return c, errCut(size)
	case n < 0 || length > mostChunk:
		return c, errDamaged(at)
	}
	c = chunkAt{letter: head[0], at: at + int64(1+n), length: int(length), head: head[:1+n]}
	if c.end() > size {
		return c, errCut(size)
	}
	return c, nil
}

// read returns the data of a chunk, which are as they were written.
func (c chunkAt) read(from io.ReaderAt, into []byte) ([]byte, error) {
	n := c.length + crc32.Size
	if cap(into) < n {
		into = make([]byte, n)
	}
	into = into[:n]
	if _, err := from.ReadAt(into, c.at); err != nil {
		return nil, err
	}
	data := into[:c.length]
	sum := crc32.Update(crc32.Checksum(c.head, castagnoli), castagnoli, data)
	if binary.BigEndian.Uint32(into[c.length:]) != sum {
		return nil, errDamaged(c.at)
	}
	return data, nil
}

func errCut(size int64) error { return &Broken{fmt.Sprintf("is cut: it ends after %d bytes", size)} }

func errDamaged(at int64) error { return &Broken{fmt.Sprintf("is damaged at byte %d", at)} }

// Broken is what is wrong with a file that is not as a shard has written it.
type Broken struct{ text string }

// Error returns what is wrong with the file, which is to be named before it.
func (b *Broken) Error() string { return b.text }
