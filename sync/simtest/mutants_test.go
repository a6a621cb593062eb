//go:build !js

package simtest_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// A mutant is a fault put into the sources on purpose: a stretch of a file, there just
// once, with another in its place. The suite that must see it is named.
type mutant struct {
	name, file, was, now string
	suite                string
}

const (
	world  = "./sync/simtest"
	device = "./sync/client"
	laws   = "./sync/merge"
	sealed = "./sync/seal"
	ledger = "./sync/ledger/mem"
	server = "./sync/server"
	wires  = "./sync/wire"
)

// mutants are what could most easily go wrong.
func mutants() []mutant {
	return []mutant{
		{"what was replaced comes back", "merge/doc.go", "} else if !b.Knows(v.Dot) {", "} else {", world},
		{"one side of a conflict is dropped", "merge/doc.go", "	return slices.Insert(values, i, v)", "	return slices.Insert(values, i, v)[:1]", world},
		{"what is dead comes back", "merge/doc.go", "Dead: a.Dead || b.Dead", "Dead: a.Dead && b.Dead", world},
		{"clocks alone tell what came later", "merge/doc.go", "max(StampOf(ms), d.Last()+1)", "StampOf(ms)+1", world},
		{"which side is joined to which matters", "merge/doc.go", "	i := 0\n	for i < len(values) && values[i].compare(v) < 0 {\n		i++\n	}", "	i := len(values)", laws},
		{"a change that is not sent yet is not looked at before joining", "client/apply.go", "switch folded, err := a.fold(&b); {", "switch folded, err := false, error(nil); {", world},
		{"a page counts as fetched before it is in the store", "client/apply.go", "	for _, n := range a.notes {\n		puts = append(puts, n.record(c.Now()))\n	}", "	if len(a.notes) > 1 {\n		a.notes = a.notes[1:]\n	}\n	for _, n := range a.notes {\n		puts = append(puts, n.record(c.Now()))\n	}", world},
		{"a page of another ledger is taken for one of this", "client/apply.go", "		if c.this.reached() != from {\n			return nil", "		if false {\n			return nil", device},
		{"what was cleared away elsewhere takes changes with it", "client/apply.go", "if newest.Stamp == 0 {", "if true {", world},
		{"what was changed while it was sent counts as sent", "client/push.go", "if bytes.Equal(n.doc.Encode(), s.docs[k]) {", "if bytes.Equal(nil, nil) {", world},
		{"what was sent is never noted", "client/push.go", "n.era = t.era", "n.era = n.era + 0", world},
		{"a push that is behind counts as sent", "client/pass.go", "	case statusBehind:\n", "	case statusBehind:\n		if last := s.push.Entries[len(s.push.Entries)-1]; true {\n			return c.sent(ctx, s, last.At())\n		}\n", world},
		{"a server that was set back is not sent what it lost", "client/push.go", "		t.at, t.made = wire.Position{}, made\n		t.era++", "		t.at, t.made = wire.Position{}, made", world},
		{"an older version empties what it does not know", "client/fold.go", "for name := range n.base {", "for name := range n.doc.Fields {", world},
		{"a record is read before its note", "client/fold.go", "	b.record = r\n	b.record.Kind, b.record.ID = k.kind, k.id\n	return b, nil", "	b.record = r\n	b.record.Kind, b.record.ID = k.kind, k.id\n	if n, err := c.Store.Get(ctx, KindNote, noteID(k)); err == nil {\n		if b.note, err = decodeNote(n); err != nil {\n			return b, err\n		}\n	}\n	return b, nil", world},
		{"a device stays the same when its disk was set back", "client/client.go", "	c.Random(s.device[:])", "	_ = s.device", world},
		{"the old copy is left when a phone is taken off", "client/pass.go", "	if !c.this.left {\n		return nil", "	if c.this.left || !c.this.left {\n		return nil", world},
		{"nonces come again", "seal/seal.go", "func NewNonce(random Random) (n Nonce) {\n	random(n[:])", "func NewNonce(random Random) (n Nonce) {\n	random(n[:1])", world},
		{"what is sealed is only signed", "seal/xchacha/xchacha.go", "	cipher(&sub, &nonce, sealed, text)\n	tag", "	copy(sealed, text)\n	tag", world},
		{"what is sealed opens anywhere", "seal/seal.go", "	return append(with, entry[:]...)", "	return with[:0]", sealed},
		{"a changed tag is not seen", "seal/xchacha/xchacha.go", "if differ != 0 {", "if differ == 1 {", sealed},
		{"words are not checked", "seal/words.go", "	return k, string(check[:4]) == string(bits[len(k):])", "	return k, string(check[:0]) == \"\"", sealed},
		{"a push sent twice is appended twice", "ledger/mem/mem.go", "	if at, ok := s.have(entries); ok {", "	if at, ok := s.have(entries); ok && len(entries) == 0 {", ledger},
		{"a push is taken whatever its base is", "ledger/mem/mem.go", "	if s.head() != base {", "	if s.head() != base && len(entries) == 0 {", world},
		{"a position is known by its number alone", "ledger/mem/mem.go", "if !known || s.rows[from].ID != after.ID {", "if !known {", ledger},
		{"half of a push is appended", "ledger/mem/mem.go", "	s.rows = next\n", "	s.rows = next[:len(next)-len(entries)/2]\n", ledger},
		{"a wrong token is let in", "server/server.go", "ConstantTimeCompare(kept[:], shown[:]) == 1", "ConstantTimeCompare(kept[:0], shown[:0]) == 1", server},
		{"a message that goes on after its end is taken", "wire/codec.go", "	if len(r.rest) > 0 {\n		r.fail(\"longer than itself\")\n	}\n	if r.bad", "	if r.bad", wires},
	}
}

// TestMutants: each is seen by its suite.
func TestMutants(t *testing.T) {
	if testing.Short() {
		t.Skip("each mutant is compiled")
	}
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range mutants() {
		t.Run(m.name, func(t *testing.T) {
			t.Parallel()
			if out, seen := m.try(t, root); !seen {
				t.Errorf("%s does not see it: %s", m.suite, out)
			}
		})
	}
}

// try runs the mutant's suite, and reports whether that failed as a test does.
func (m mutant) try(t *testing.T, root string) (out string, seen bool) {
	t.Helper()
	path := filepath.Join(root, "sync", m.file)
	source, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(string(source), m.was); n != 1 {
		t.Fatalf("%s has %d of %q, want 1: mend the mutant", m.file, n, m.was)
	}
	dir := t.TempDir()
	changed, overlay, program := filepath.Join(dir, "changed.go"), filepath.Join(dir, "overlay.json"), filepath.Join(dir, "suite.test")
	if err := os.WriteFile(changed, []byte(strings.Replace(string(source), m.was, m.now, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": {path: changed}})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(overlay, list, 0o600); err != nil {
		t.Fatal(err)
	}
	build := exec.Command("go", "test", "-c", "-vet=off", "-ldflags=-s -w", "-overlay", overlay, "-o", program, m.suite)
	build.Dir = root
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("it does not compile: %v\n%s", err, out)
	}
	run := exec.Command(program, "-test.run=^Test", "-test.skip=^Test(Mutants|Trace|SameTrace|LazyDisk|DeathForgotten)$", "-test.failfast", "-test.timeout=120s")
	run.Dir = filepath.Join(root, m.suite)
	run.Env = append(os.Environ(), "CHALKFOLD_WORLDS=3000", "CHALKFOLD_FIRST=1", "CHALKFOLD_FAULTS=1")
	result, err := run.CombinedOutput()
	return string(result), err != nil && strings.Contains(string(result), "--- FAIL: ")
}
