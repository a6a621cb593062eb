package ui

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/plain"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/sync/store"
)

// clothKind is the kind of the records that hold cloth that was left over.
const clothKind = "cloth"

// clothVersion is the version of the record; the cloth in it is read as in a job
// file.
const clothVersion = 1

// Remnant is cloth that is kept for later jobs. It is the first cloth of a job
// of nothing else, so that its figures are typed and read as a job's are.
type Remnant struct {
	*Job
	From string // id of the job that left it; empty when it was entered by hand
}

// NewRemnant is a remnant whose figures are in those units when they name none.
func NewRemnant(u job.Units, c job.Cloth, from string) *Remnant {
	r := &Remnant{NewJob(""), from}
	r.File.Units, r.File.Cloth = u, []job.Cloth{c}
	return r
}

// Encode writes the remnant for the store.
func (r *Remnant) Encode() ([]byte, error) {
	c, err := r.Cloth(0).Encode()
	if err != nil {
		return nil, say.Errorf("the cloth cannot be kept: %v", err)
	}
	w := &plain.Writer{}
	w.Open('{')
	w.Key("version").Int(clothVersion)
	w.IntIf("deleted", r.Deleted)
	w.TextIf("from", r.From)
	w.Key("cloth").Raw(c)
	plain.WritePairs(w, "unread", r.Unread)
	w.Shut('}')
	return w.Done()
}

// DecodeRemnant reads a remnant from the store. Figures that name no unit are
// in u.
func DecodeRemnant(data []byte, u job.Units) (*Remnant, error) {
	var version int64
	var text []byte
	out := NewRemnant(u, job.Cloth{}, "")
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "version":
			version = r.Int()
		case "deleted":
			out.Deleted = r.Int()
		case "from":
			out.From = r.Text()
		case "cloth":
			text = r.Raw()
		case "unread":
			plain.ReadPairs(r, &out.Unread)
		}
	}
	if err := r.End(); err != nil {
		return nil, say.Errorf("the kept cloth cannot be read: %v", err)
	}
	if version < 1 {
		return nil, say.Errorf("the kept cloth cannot be read: it has no version")
	}
	if version > clothVersion {
		return nil, say.Errorf("the kept cloth has version %d, this page knows %d: %v", version, clothVersion, errNewer)
	}
	c, err := job.DecodeCloth(text)
	if err != nil {
		return nil, say.Errorf("the kept cloth cannot be read: %v", err)
	}
	out.File.Cloth[0] = c
	return out, nil
}

// Fault says what is to be mended before it can be laid on; empty when nothing
// is.
func (r *Remnant) Fault(w *say.Words) string {
	c := r.Cloth(0)
	if len(r.Unread) > 0 || len(c.Outline) == 0 && (!c.Width.Set() || !c.Length.Set()) {
		return w.T("Give its width and its length, or its corners.")
	}
	return whyNoCloth(draft.CheckCloth(c, r.File.Units), w)
}

// Corners are its outline, mm: as it was entered, or the rectangle that it is.
func (r *Remnant) Corners() [][2]unit.Length {
	c := r.Cloth(0)
	w, l := c.Width.Length(), c.Length.Length()
	all := [][2]unit.Length{{0, 0}, {w, 0}, {w, l}, {0, l}}
	if len(c.Outline) > 0 {
		all = nil
		for _, k := range c.Outline {
			all = append(all, [2]unit.Length{k.Across.Length(), k.Along.Length()})
		}
	}
	return all
}

// asRectangle is a remnant of four square corners as a width and a length, so
// that it can be folded; others are as they are.
func asRectangle(c job.Cloth) job.Cloth {
	o := c.Outline
	if len(o) != 4 || len(c.Flaws) > 0 {
		return c
	}
	zero := func(q unit.Quantity) bool { return q.Length() == 0 }
	if zero(o[0].Across) && zero(o[0].Along) && zero(o[1].Along) && zero(o[3].Across) &&
		o[1].Across.Length() == o[2].Across.Length() && o[2].Along.Length() == o[3].Along.Length() {
		c.Width, c.Length, c.Outline = o[2].Across, o[2].Along, nil
	}
	return c
}

// remnant is a remnant as it is kept.
type remnant struct {
	*Remnant
	filing
}

// load takes it as it is kept.
func (r *remnant) load(of store.Record) {
	u := r.File.Units
	if r.Remnant, r.err = DecodeRemnant(of.Data, u); r.err != nil {
		r.Remnant = NewRemnant(u, job.Cloth{}, "")
	}
}

// fileRemnants takes the remnants as they were read from the store; see file.
func (d *Desk) fileRemnants(records []store.Record) {
	read := revisions(records)
	var all []*remnant
	for _, r := range d.remnants {
		if rev, ok := read[r.id]; r.unsettled(rev, ok) {
			all = append(all, r)
		}
	}
	for _, of := range records {
		if slices.ContainsFunc(all, func(r *remnant) bool { return r.id == of.ID }) {
			continue
		}
		r := &remnant{NewRemnant(d.units(), job.Cloth{}, ""), filing{id: of.ID, keeper: NewKeeper(clothKind, of.ID, of.Rev, d.deps.Now)}}
		r.load(of)
		all = append(all, r)
	}
	d.remnants = all
}

// units are those of the job on the desk.
func (d *Desk) units() job.Units {
	if d.job == nil {
		return job.Units{}
	}
	return d.job.File.Units
}

// remnant is the remnant of that id; nil when there is none.
func (d *Desk) remnant(id string) *remnant {
	return under(d.remnants, id)
}

// newRemnant keeps cloth as a remnant.
func (d *Desk) newRemnant(c job.Cloth, from string) *remnant {
	id := d.deps.NewID()
	r := &remnant{NewRemnant(d.units(), c, from), filing{id: id, keeper: NewKeeper(clothKind, id, 0, d.deps.Now)}}
	d.remnants = append(d.remnants, r)
	d.keepRemnant(r)
	return r
}

// keepRemnant has a remnant saved as it is.
func (d *Desk) keepRemnant(r *remnant) { d.keepFiled(&r.filing, r.Encode) }

// usedBy are the tickets of the jobs that a remnant is the cloth of, but for
// that of the id.
func (d *Desk) usedBy(id, but string) []string {
	var out []string
	for _, s := range slices.Concat(d.records, d.orders) {
		if s.ID != but && !s.deleted() && slices.Contains(s.Cloths, id) {
			out = append(out, d.ticket(s.Ticket))
		}
	}
	return out
}

// outlineOf is where a cloth has a figure of one of its corners; nil when the
// key is of none.
func outlineOf(c *job.Cloth, key string) *unit.Quantity {
	number, figure, _ := strings.Cut(strings.TrimPrefix(key, "outline["), "].")
	i, err := strconv.Atoi(number)
	if err != nil || i < 0 || i >= len(c.Outline) {
		return nil
	}
	if figure == "along" {
		return &c.Outline[i].Along
	}
	return &c.Outline[i].Across
}

// cornerKey is the key of one figure of a corner, as the job file has it.
func cornerKey(i int, figure string) string { return "outline[" + strconv.Itoa(i) + "]." + figure }

// forgetCorners forgets what was typed for the corners, which are others now.
func (r *Remnant) forgetCorners() {
	for _, texts := range []map[string]string{r.typed, r.Unread} {
		maps.DeleteFunc(texts, func(path, _ string) bool { return strings.HasPrefix(path, clothPath(0, "outline[")) })
	}
}
