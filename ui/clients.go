package ui

import (
	"maps"
	"slices"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/plain"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/sync/store"
	"chalkfold/ui/day"
)

// clientKind is the kind of the records that hold clients.
const clientKind = "client"

// clientVersion is the version of the record.
//
//	1  name, note, figure, rules
//	2  and what her fittings taught; her build
//	3  and on which side
const clientVersion = 3

// Client is someone who is sewn for. Her measurements are those of her jobs.
type Client struct {
	Name, Note string
	Figure     body.Figure
	Rules      rules.Values  // that her next job starts from
	Build      garment.Style // answers to the questions that are asked of the figure
	// Corrections are what her fittings taught, by garment.
	Corrections map[string][]Correction
	// Deleted is when she was deleted, in ms since 1970; nought if she was not.
	Deleted int64
}

// Encode writes the client for the store.
func (c *Client) Encode() ([]byte, error) {
	w := &plain.Writer{}
	w.Open('{')
	w.Key("version").Int(clientVersion)
	w.TextIf("name", c.Name)
	w.TextIf("note", c.Note)
	w.TextIf("figure", string(c.Figure))
	plain.WritePairs(w, "rules", c.Rules)
	plain.WritePairs(w, "build", c.Build)
	if len(c.Corrections) > 0 {
		w.Key("corrections").Open('{')
		for _, g := range slices.Sorted(maps.Keys(c.Corrections)) {
			w.Key(g).Open('[')
			for _, one := range c.Corrections[g] {
				one.write(w.Next())
			}
			w.Shut(']')
		}
		w.Shut('}')
	}
	w.IntIf("deleted", c.Deleted)
	w.Shut('}')
	return w.Done()
}

// DecodeClient reads a client from the store.
func DecodeClient(data []byte) (*Client, error) {
	c := &Client{}
	var version int64
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "version":
			version = r.Int()
		case "name":
			c.Name = r.Text()
		case "note":
			c.Note = r.Text()
		case "figure":
			c.Figure = body.Figure(r.Text())
		case "rules":
			plain.ReadPairs(r, &c.Rules)
		case "build":
			plain.ReadPairs(r, &c.Build)
		case "corrections":
			c.Corrections = map[string][]Correction{}
			for g := range r.Object() {
				for range r.List() {
					c.Corrections[g] = append(c.Corrections[g], readCorrection(r))
				}
			}
		case "deleted":
			c.Deleted = r.Int()
		}
	}
	if err := r.End(); err != nil {
		return nil, say.Errorf("the kept client cannot be read: %v", err)
	}
	if version < 1 {
		return nil, say.Errorf("the kept client cannot be read: it has no version")
	}
	if version > clientVersion {
		return nil, say.Errorf("the kept client has version %d, this page knows %d: %v", version, clientVersion, errNewer)
	}
	return c, nil
}

// filing is how something that is kept whole beside the jobs is kept.
type filing struct {
	id     string
	err    error // why it cannot be read; then nothing of it is known
	keeper *Keeper
}

func (f *filing) name() string { return f.id }

// under is what is kept under that id; nil when there is nothing.
func under[T interface{ name() string }](all []T, id string) T {
	for _, one := range all {
		if one.name() == id {
			return one
		}
	}
	var none T
	return none
}

// unsettled reports whether it has changes that are not saved yet, or were saved
// after rev was read; there says whether it was read at all.
func (f *filing) unsettled(rev uint32, there bool) bool {
	return f.keeper.Saving() != Saved || there && rev < f.keeper.rev
}

// filed is a client as she is kept.
type filed struct {
	*Client
	filing

	folded, foldedFor string // her name as a search looks at it, and as it was then
}

// load takes her as she is kept.
func (c *filed) load(r store.Record) {
	if c.Client, c.err = DecodeClient(r.Data); c.err != nil {
		c.Client = &Client{}
	}
}

// file takes the clients as they were read from the store, but for those with
// changes that are not saved yet, or were saved after they were read.
func (d *Desk) file(records []store.Record) {
	read := revisions(records)
	var all []*filed
	stays := map[string]bool{}
	for _, c := range d.clients {
		rev, ok := read[c.id]
		if c.unsettled(rev, ok) || ok && rev == c.keeper.rev {
			all = append(all, c)
			stays[c.id] = true
		}
	}
	for _, r := range records {
		if stays[r.ID] {
			continue
		}
		c := &filed{filing: filing{id: r.ID, keeper: NewKeeper(clientKind, r.ID, r.Rev, d.deps.Now)}}
		c.load(r)
		all = append(all, c)
	}
	d.clients = all
}

// revisions are those of records, by id.
func revisions(records []store.Record) map[string]uint32 {
	read := map[string]uint32{}
	for _, r := range records {
		read[r.ID] = r.Rev
	}
	return read
}

// client is the client of that id; nil when there is none.
func (d *Desk) client(id string) *filed {
	for _, c := range d.clients { // as under does, but without a call for each: a list asks for all its entries
		if c.id == id {
			return c
		}
	}
	return nil
}

// newClient makes a client of that name.
func (d *Desk) newClient(name string) *filed {
	c := &filed{Client: &Client{Name: clip(name)}, filing: filing{id: d.deps.NewID()}}
	c.keeper = NewKeeper(clientKind, c.id, 0, d.deps.Now)
	d.clients = append(d.clients, c)
	d.keepClient(c)
	return c
}

// keepClient has a client saved as she is.
func (d *Desk) keepClient(c *filed) {
	d.shelvesRead++
	d.keepFiled(&c.filing, c.Encode)
}

// hers is what a client has of her jobs: what is changed of it in one of them
// counts for her next.
type hers struct {
	client string
	figure body.Figure
	rules  rules.Values
	build  garment.Style
	alters []job.Alteration // none in what is asked of the client herself
}

func (j *Job) hers() hers {
	return hers{j.Client, j.File.Figure, j.File.Rules.Client, j.build(), j.lasting()}
}

func (c *filed) hers() hers { return hers{c.id, c.Figure, c.Rules, c.Build, nil} }

func (h hers) same(o hers) bool {
	return h.client == o.client && h.figure == o.figure && maps.Equal(h.rules, o.rules) && maps.Equal(h.build, o.build) && slices.Equal(h.alters, o.alters)
}

// teach tells the open job's client what was changed of hers in the job, since
// it was told last.
func (d *Desk) teach() {
	if d.ordering() {
		return
	}
	was, now := d.taught, d.job.hers()
	d.taught = now
	if c := d.client(now.client); c != nil && was.client == now.client && !was.same(now) {
		c.Figure, c.Rules, c.Build = now.figure, withKnown(d.garment, c.Rules, now.rules), builtOn(c.Build, now.build)
		if !slices.Equal(was.alters, now.alters) {
			c.correct(d.garment.ID, corrections(d.garment, d.job))
		}
		d.keepClient(c)
	}
}

// correct takes what her fittings taught of a kind of garment.
func (c *Client) correct(garment string, all []Correction) {
	if c.Corrections == nil {
		c.Corrections = map[string][]Correction{}
	}
	c.Corrections[garment] = all
	if len(all) == 0 {
		delete(c.Corrections, garment)
	}
}

// takeCorrections has the open job start from what its client's fittings taught,
// unless it is cut.
func (d *Desk) takeCorrections(c *filed) {
	if d.job.Reached[Cut] == "" {
		d.job.File.Alterations = append(corrected(d.garment, c.Corrections[d.garment.ID], d.job.File.Rules.House, d.job.File.Units.Format()), d.job.File.Alterations...)
	}
}

// give makes the open job that of a client, or of nobody in particular. What
// the job has not is taken from her, what she has not from the job.
func (d *Desk) give(c *filed) {
	j := d.job
	if c == nil {
		j.Client = ""
		d.changed("")
		return
	}
	j.Client = c.id
	if d.ordering() {
		d.changed("")
		return
	}
	was := c.hers()
	if j.File.Figure == body.Unknown {
		j.File.Figure = c.Figure
	}
	if len(j.File.Rules.Client) == 0 {
		j.File.Rules.Client = known(d.garment, c.Rules)
	}
	if len(j.build()) == 0 {
		j.File.Style = builtOn(j.File.Style, figured(d.garment, c.Build))
	}
	if c.Figure == body.Unknown {
		c.Figure = j.File.Figure
	}
	if len(c.Build) == 0 {
		c.Build = j.build()
	}
	if len(c.Rules) == 0 {
		c.Rules = j.File.Rules.Client
	}
	taught := len(c.Corrections[d.garment.ID]) == 0 && len(j.lasting()) > 0
	if taught {
		c.correct(d.garment.ID, corrections(d.garment, j))
	} else if len(j.lasting()) == 0 {
		d.takeCorrections(c)
	}
	if taught || !was.same(c.hers()) {
		d.keepClient(c)
	}
	d.changed("")
}

// startFor is a new job for a client: in the unit of her last one, by her own
// rules. Nothing is taken as measured.
func (d *Desk) startFor(c *filed) *Job {
	j := d.newJobOf(d.garment.ID)
	j.Client = c.id
	j.File.Units, j.File.Figure, j.File.Rules.Client = d.job.File.Units, c.Figure, known(d.garment, c.Rules)
	j.File.Style = builtOn(j.File.Style, figured(d.garment, c.Build))
	for _, r := range d.jobsOf(c.id) {
		if r.whole() != nil {
			j.File.Units = r.job.File.Units
			break
		}
	}
	j.File.Alterations = corrected(d.garment, c.Corrections[d.garment.ID], j.File.Rules.House, j.File.Units.Format())
	return j
}

// Earlier is a taking of the open job's client from another job of hers.
type Earlier struct {
	Day    day.Day // none when it was taken before days were kept
	Taking body.Taking
	Ticket string
}

// earlierJobs are the other jobs of the open job's client, the one that was changed
// last first.
func (d *Desk) earlierJobs() []*shelved {
	if d.job == nil || d.job.Client == "" {
		return nil
	}
	return slices.DeleteFunc(d.jobsOf(d.job.Client), func(r *shelved) bool { return d.keeper != nil && r.ID == d.keeper.id })
}

// jobsOf are the jobs of a client, the one that was changed last first.
func (d *Desk) jobsOf(client string) []*shelved {
	var out []*shelved
	for _, r := range d.records {
		if r.Client == client && !r.deleted() {
			out = append(out, r)
		}
	}
	return out
}

// takings are all takings of a measurement in jobs of one client, the newest first.
func takings(jobs []*shelved, id body.ID) []Earlier {
	var out []Earlier
	for _, r := range jobs {
		if r.whole() == nil {
			continue
		}
		t, ok := r.job.File.Measurements[id]
		if !ok || !t.Value.Set() {
			continue
		}
		e := Earlier{Day: r.job.Taken[id], Taking: t, Ticket: r.Ticket}
		// Records come with the one changed last first, which stays so among
		// takings of one day.
		i := slices.IndexFunc(out, func(o Earlier) bool { return e.Day > o.Day })
		if i < 0 {
			i = len(out)
		}
		out = slices.Insert(out, i, e)
	}
	return out
}
