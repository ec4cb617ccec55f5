package tape

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
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

// reel reads the results of a segment, one after the other.
type reel struct {
	of     *written
	next   int // the replication
	block  int // the next to be read
	left   uint64
	values Values
	raw    []byte
	unpack io.ReadCloser
	data   bytes.Buffer
}

// read reads the next result.
func (l *reel) read(r Recorded) error {
	if l.left == 0 {
		if err := l.open(); err != nil {
			return err
		}
	}
	r.Values(&l.values)
	l.left--
	l.next++
	if l.values.err != nil {
		return l.broken()
	}
	if l.left == 0 && l.values.over() != nil {
		return l.broken()
	}
	return nil
}

// open reads the next block.
func (l *reel) open() error {
	if l.block == len(l.of.blocks) {
		return l.broken()
	}
	c := l.of.blocks[l.block]
	l.block++
	raw, err := c.read(l.of.file.from, l.raw)
	if err != nil {
		return err
	}
	l.raw = raw[:0]
	n, size := binary.Uvarint(raw)
	if size <= 0 || n == 0 || n > uint64(l.of.last-l.next) {
		return errDamaged(c.at)
	}
	packed := bytes.NewReader(raw[size:])
	if l.unpack == nil {
		l.unpack = flate.NewReader(packed)
	} else if err := l.unpack.(flate.Resetter).Reset(packed, nil); err != nil {
		return err
	}
	l.data.Reset()
	if _, err := l.data.ReadFrom(io.LimitReader(l.unpack, mostChunk)); err != nil {
		return errDamaged(c.at)
	}
	l.left = n
	l.values = Values{reading: true, data: l.data.Bytes(), texts: l.values.texts[:0]}
	return nil
}

func (l *reel) broken() error {
	at := int64(0)
	if l.block > 0 {
		at = l.of.blocks[l.block-1].at
	}
	return errDamaged(at)
}
