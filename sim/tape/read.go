package tape

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"strings"
)

// File is the file of a shard, of which the head is read and is known what else it has.
type File struct {
	Name string // in errors
	Head []byte

	from     io.ReaderAt
	segments []written
}

// written is where a segment is written.
type written struct {
	segment
	file   *File
	blocks []chunkAt
}

// Open reads what the file of a shard has, of so many bytes. What is wrong with it is a [Broken].
// The sum of each block is looked at when it is read.
func Open(name string, from io.ReaderAt, size int64) (*File, error) {
	start := make([]byte, min(int64(len(magic)), size))
	if _, err := from.ReadAt(start, 0); err != nil && !errors.Is(err, io.EOF) {
		return nil, err
	}
	switch {
	case !strings.HasPrefix(magic, string(start)):
		return nil, &Broken{"is not the file of a shard"}
	case len(start) < len(magic):
		return nil, errCut(size)
	}
	f := &File{Name: name, from: from}
	at := int64(len(magic))
	for chunks := 0; ; chunks++ {
		c, err := chunkOf(from, at, size)
		if err != nil {
			return nil, err
		}
		if (chunks == 0) != (c.letter == headChunk) {
			return nil, errDamaged(at)
		}
		if c.letter == endChunk {
			return f, f.end(c, chunks, size)
		}
		if err := f.take(c, at); err != nil {
			return nil, err
		}
		at = c.end()
	}
}

// take takes one chunk in.
func (f *File) take(c chunkAt, at int64) error {
	switch c.letter {
	case headChunk:
		head, err := c.read(f.from, nil)
		f.Head = head
		return err
	case segmentChunk:
		data, err := c.read(f.from, nil)
		if err != nil {
			return err
		}
		s, ok := segmentOf(data)
		if !ok {
			return errDamaged(at)
		}
		f.segments = append(f.segments, written{segment: s, file: f})
		return nil
	case blockChunk:
		if len(f.segments) == 0 {
			return errDamaged(at)
		}
		last := &f.segments[len(f.segments)-1]
		last.blocks = append(last.blocks, c)
		return nil
	}
	return errDamaged(at)
}

func (f *File) end(c chunkAt, chunks int, size int64) error {
	data, err := c.read(f.from, nil)
	if err != nil {
		return err
	}
	if n, k := binary.Uvarint(data); k != len(data) || n != uint64(chunks) || c.end() != size {
		return errDamaged(c.at)
	}
	return nil
}

func segmentOf(data []byte) (s segment, ok bool) {
	for _, to := range []*int{&s.first, &s.last} {
		x, n := binary.Uvarint(data)
		if n <= 0 || x > 1<<40 {
			return s, false
		}
		*to, data = int(x), data[n:]
	}
	s.stage, s.kind, ok = strings.Cut(string(data), " ")
	return s, ok && s.first < s.last
}

// Block is the results of some replications in a row, which are read apart from all others.
type Block struct {
	of    *written
	chunk chunkAt
	last  bool // of its segment
}

// Reader reads blocks, one after the other. The zero Reader is ready.
type Reader struct {
	raw    []byte
	unpack io.ReadCloser
	data   bytes.Buffer
	texts  []string
}

// Read reads the results of a block, each into what the function returns for it, and returns how many there
// are. What is wrong with the file is a [Broken].
func (l *Reader) Read(b Block, result func(i int) Recorded) (n int, err error) {
	if n, err = l.read(b, result); err != nil {
		return n, fmt.Errorf("%s %w", b.of.file.Name, err)
	}
	return n, nil
}

func (l *Reader) read(b Block, result func(i int) Recorded) (n int, err error) {
	n, err = l.open(b)
	if err != nil {
		return 0, err
	}
	v := Values{reading: true, data: l.data.Bytes(), texts: l.texts[:0]}
	for i := range n {
		result(i).Values(&v)
		if v.err != nil {
			break
		}
	}
	l.texts = v.texts
	if v.over() != nil {
		return 0, errDamaged(b.chunk.at)
	}
	return n, nil
}

// open unpacks a block, and returns how many results it has.
func (l *Reader) open(b Block) (n int, err error) {
	raw, err := b.chunk.read(b.of.file.from, l.raw)
	if err != nil {
		return 0, err
	}
	l.raw = raw[:0]
	count, size := binary.Uvarint(raw)
	if size <= 0 || count == 0 || count > blockRecords {
		return 0, errDamaged(b.chunk.at)
	}
	packed := bytes.NewReader(raw[size:])
	if l.unpack == nil {
		l.unpack = flate.NewReader(packed)
	} else if err := l.unpack.(flate.Resetter).Reset(packed, nil); err != nil {
		return 0, err
	}
	l.data.Reset()
	if _, err := l.data.ReadFrom(io.LimitReader(l.unpack, mostChunk)); err != nil {
		return 0, errDamaged(b.chunk.at)
	}
	return int(count), nil
}

// Ends returns an error unless a block that ends before a replication may do so: the last of a segment ends
// where that does, and all others before.
func (b Block) Ends(replication int) error {
	if s := b.of.segment; b.last && replication == s.last || !b.last && replication < s.last {
		return nil
	}
	return fmt.Errorf("%s %w", b.of.file.Name, errDamaged(b.chunk.at))
}
