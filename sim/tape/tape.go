package tape

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"hash/crc32"
	"slices"
	"strconv"
)

// ErrElsewhere ends a stage that is not recorded whole: the rest is run by other shards, or has not
// been run. Whoever has asked passes it on; who has further stages that do not depend on this one asks
// them first.
var ErrElsewhere = errors.New("the rest is run elsewhere")

// Tape plays what is recorded of a question, stage by stage. One that also records is that of a shard.
type Tape struct {
	Missing []Missing // what the stages that ended early lacked

	shard, shards int // from 1 on; 0 of 0 of a merge
	to            *Writer
	segments      map[string][]*written // by stage, in order
	ready         func(*Tape) error     // called before the first stage; nil once it was
}

// Shard returns the tape of a shard. It is made ready, by Plays and RecordsPart, when the first stage begins: by
// then it is known what is asked.
func Shard(ready func(*Tape) error) *Tape { return &Tape{ready: ready} }

// Missing is replications of a stage that are wanted and not recorded.
type Missing struct {
	Stage       string
	First, Last int // Last is the one after
}

// Player returns a tape that plays files of one question.
func Player(files []*File) *Tape {
	t := &Tape{segments: map[string][]*written{}}
	for _, f := range files {
		for i := range f.segments {
			s := &f.segments[i]
			t.segments[s.stage] = append(t.segments[s.stage], s)
		}
	}
	for _, all := range t.segments {
		slices.SortStableFunc(all, func(a, b *written) int { return cmp.Compare(a.first, b.first) })
	}
	return t
}

// Plays has the tape play files.
func (t *Tape) Plays(files []*File) { t.segments = Player(files).segments }

// RecordsPart has the tape record the part of one shard of several, from 1 on.
func (t *Tape) RecordsPart(shard, shards int, to *Writer) {
	t.shard, t.shards, t.to = shard, shards, to
}

// branch is a part of a question: stages one after the other, of which each may depend on those before.
type branch struct {
	tape   *Tape
	name   string // "" of the question itself, else it ends with a point
	stages int    // begun
}

type key struct{}

func (b *branch) with(ctx context.Context) context.Context { return context.WithValue(ctx, key{}, b) }

func branchOf(ctx context.Context) *branch {
	b, _ := ctx.Value(key{}).(*branch)
	return b
}

// With returns a context in which replications are played from the tape.
func (t *Tape) With(ctx context.Context) context.Context { return (&branch{tape: t}).with(ctx) }

// Of reports whether a tape goes along in a context.
func Of(ctx context.Context) bool { return branchOf(ctx) != nil }

// Stage is one stage of a question.
type Stage struct {
	tape     *Tape
	name     string // such as 2, or 1.3 of the first of branches
	kind     string
	segments []*written
}

// Begin begins the next stage of a context with a tape. The kind of its results tells it from others that
// it could be taken for.
func Begin(ctx context.Context, kind string) (*Stage, error) {
	b := branchOf(ctx)
	t := b.tape
	if ready := t.ready; ready != nil {
		t.ready = nil
		if err := ready(t); err != nil {
			return nil, err
		}
	}
	b.stages++
	name := b.name + strconv.Itoa(b.stages)
	return &Stage{tape: t, name: name, kind: kind, segments: t.segments[name]}, nil
}

// Blocks returns what is recorded of the stage, from a replication on, in order and without a gap.
func (s *Stage) Blocks(first int) (all []Block, err error) {
	for _, of := range s.segments {
		switch {
		case of.first > first:
			return all, nil
		case of.first < first:
			return nil, fmt.Errorf("%s has what other files have, too", of.file.Name)
		case of.kind != s.kind:
			return nil, fmt.Errorf("%s has other results than the question asks for", of.file.Name)
		case len(of.blocks) == 0:
			return nil, fmt.Errorf("%s %w", of.file.Name, &Broken{"is damaged: it lacks what it says it has"})
		}
		for i, c := range of.blocks {
			all = append(all, Block{of: of, chunk: c, last: i == len(of.blocks)-1})
		}
		first = of.last
	}
	return all, nil
}

// Records reports whether what is not recorded is to be run and recorded here.
func (s *Stage) Records() bool { return s.tape.to != nil }

// Lacks notes that replications of the stage are wanted and not recorded.
func (s *Stage) Lacks(first, last int) {
	s.tape.Missing = append(s.tape.Missing, Missing{s.name, first, last})
}

// Part returns which of some replications this shard runs. Parts differ by one at most; of stages
// with few replications, the shards that have one more take turns.
func (s *Stage) Part(first, last int) (from, to int) {
	t := s.tape
	turn := crc32.ChecksumIEEE([]byte(s.name)) % uint32(t.shards)
	n, own := last-first, (t.shard-1+int(turn))%t.shards
	part := func(i int) int { return first + n/t.shards*i + n%t.shards*i/t.shards }
	return part(own), part(own + 1)
}

// Record begins to record replications, which are then given to what it returns, in order.
func (s *Stage) Record(first, last int) (record func(r Recorded)) {
	s.tape.to.begin(segment{stage: s.name, kind: s.kind, first: first, last: last})
	return s.tape.to.record
}

// Recorded ends what Record began.
func (s *Stage) Recorded() error {
	s.tape.to.block()
	return s.tape.to.err
}

// Here returns a context without a tape: what is run with it is run in every process, because it costs
// less than to wait for others.
func Here(ctx context.Context) context.Context { return (*branch)(nil).with(ctx) }

// Elsewhere is branches of a question that do not depend on one another: where the rest of one is run
// elsewhere, the others can still be asked.
type Elsewhere struct {
	err   error
	begun int
	in    *branch // that they are branches of
	name  string
}

// Next returns the context of the next of them. Its stages are numbered by themselves, however
// many the others have.
func (e *Elsewhere) Next(ctx context.Context) context.Context {
	b := branchOf(ctx)
	if b == nil {
		return ctx
	}
	if e.in == nil {
		b.stages++
		e.in, e.name = b, b.name+strconv.Itoa(b.stages)
	}
	e.begun++
	return (&branch{tape: b.tape, name: fmt.Sprintf("%s.%d.", e.name, e.begun)}).with(ctx)
}

// Keep keeps an error if the next stage can be asked all the same, and returns it if not.
func (e *Elsewhere) Keep(err error) error {
	if !errors.Is(err, ErrElsewhere) {
		return err
	}
	if e.err == nil {
		e.err = err
	}
	return nil
}

// Err returns the error that was kept; nil if none was.
func (e *Elsewhere) Err() error { return e.err }
