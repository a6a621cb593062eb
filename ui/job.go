package ui

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/quote"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
	"chalkfold/ui/day"
)

// Job is the job on the desk: the job file, and what was typed that cannot go
// into it yet, so that nothing is lost when the page is closed in the middle of
// a figure. Fields are named by the paths that the core's problems have:
// "measurements.hip_girth", "rules.house.seat_tilt", "cloth[0].width".
type Job struct {
	File job.Job
	// Unread are texts that cannot be read as what they should be, by path.
	Unread map[string]string
	// Answered are the measurements that were kept when they were asked about,
	// with the figure that was kept.
	Answered map[body.ID]string
	// Client is the id of the client's record; empty when it is for nobody in
	// particular.
	Client string
	// Order is the id of the order that it belongs to; empty when it is by itself.
	Order string
	// Taken are the days on which the measurements were entered last.
	Taken map[body.ID]day.Day
	// Aside are the takings that were not chosen where two phones had measured
	// differently; see SetAside.
	Aside map[string]string
	// Due is when it is promised.
	Due day.Day
	// Reached are the milestones with their days.
	Reached map[Milestone]day.Day
	// Notes are what the maker writes down for herself.
	Notes string
	// Pieces are those that are cut, by their ids.
	Pieces map[string]bool
	Sewing Sewing
	// MadeUp is the waist as it was measured on the sewn garment.
	MadeUp unit.Quantity
	// Fitting is the day of the fitting, and Seen what was seen at it.
	Fitting day.Day
	Seen    string
	// Quote is what it costs the client.
	Quote quote.Quote
	// CutAs are the alterations that it was cut with.
	CutAs []job.Alteration
	// Mark is the mark that was chalked last; see chalk.Key.
	Mark string
	// Printed is what was printed of it last on sheets of paper: an engine.Print,
	// empty when there is none.
	Printed []byte
	// State is how far it was when it was drafted last; see stateOf.
	State State
	// Deleted is when it was deleted, in ms since 1970; nought if it was not.
	Deleted int64

	past history

	// typed is what the fields hold while the page is open: what was typed
	// stays as it was typed until the job is opened again.
	typed map[string]string
	// edited is the level at which a rule was changed last while the page is
	// open, so that emptying its field does not lead to another level.
	edited map[rules.ID]rules.Level
}

// NewJob is a job with nothing in it.
func NewJob(garment string) *Job { return jobOf(job.New(garment)) }

func jobOf(file job.Job) *Job {
	return &Job{
		File: file, Unread: map[string]string{}, Answered: map[body.ID]string{},
		Taken: map[body.ID]day.Day{}, Aside: map[string]string{}, Reached: map[Milestone]day.Day{}, Pieces: map[string]bool{}, Sewing: Sewing{Done: map[string]bool{}, Drawer: map[string]bool{}},
		typed: map[string]string{}, edited: map[rules.ID]rules.Level{},
	}
}

// Blank reports whether nothing has been entered.
func (j *Job) Blank() bool {
	return j.File.Name == "" && j.Client == "" && len(j.File.Measurements) == 0 && len(j.Unread) == 0
}

// System is the unit of a figure that names none.
func (j *Job) System() unit.System { return j.File.Units.System }

func measured(id body.ID) string { return "measurements." + string(id) }

func rulePath(level rules.Level, id rules.ID) string {
	return "rules." + level.String() + "." + string(id)
}

func clothPath(i int, key string) string { return "cloth[" + strconv.Itoa(i) + "]." + key }

// text is what the field at a path holds: as typed, or as it was kept.
func (j *Job) text(path, keptText string) string {
	if t, ok := j.typed[path]; ok {
		return t
	}
	if t, ok := j.Unread[path]; ok {
		return t
	}
	return keptText
}

// bare is a length as entered, without its unit where that is the tape's own.
func (j *Job) bare(q unit.Quantity) string {
	s := q.String()
	if q.System() == j.System() {
		s = strings.TrimSuffix(s, " "+q.System().String())
	}
	return s
}

// enter reads a length typed at a path. What cannot be read is kept beside the
// file.
func (j *Job) enter(path, text string) unit.Quantity {
	j.typed[path] = text
	delete(j.Unread, path)
	if strings.TrimSpace(text) == "" {
		return unit.Quantity{}
	}
	q, err := unit.Parse(text, j.System())
	if err != nil {
		j.Unread[path] = text
	}
	return q
}

// SetName names the job.
func (j *Job) SetName(name string) { j.File.Name = clip(name) }

// Measured is the text of a measurement's field.
func (j *Job) Measured(id body.ID) string {
	return j.text(measured(id), j.bare(j.File.Measurements[id].Value))
}

// Measure takes what was typed for a measurement on that day.
func (j *Job) Measure(id body.ID, text string, on day.Day) {
	t := j.File.Measurements[id]
	t.Value = j.enter(measured(id), text)
	j.take(id, t)
	j.Taken[id] = on
	if strings.TrimSpace(text) == "" {
		delete(j.Taken, id)
	}
}

// Reach notes the day on which a milestone was reached; no day takes it back.
func (j *Job) Reach(m Milestone, on day.Day) {
	j.Reached[m] = on
	if m == Cut {
		j.CutAs = slices.Clone(j.File.Alterations)
	}
	if on == "" {
		delete(j.Reached, m)
		if m == Cut {
			j.CutAs = nil
		}
	}
}

// madeUp is the path of the made-up waist.
const madeUp = "made_up"

// SetMadeUp takes what was typed for the made-up waist.
func (j *Job) SetMadeUp(text string) { j.MadeUp = j.enter(madeUp, text) }

// CutPiece ticks a piece as cut, or takes the tick back.
func (j *Job) CutPiece(id string) { turn(j.Pieces, id) }

// longest is how long a note may be, in bytes.
const longest = 4000

// SetOf says what a measurement was taken of.
func (j *Job) SetOf(id body.ID, of body.Of) {
	t := j.File.Measurements[id]
	t.Of = of
	j.take(id, t)
}

// take changes one taking in a copy, since drafts hold on to the map.
func (j *Job) take(id body.ID, t body.Taking) {
	all := maps.Clone(j.File.Measurements)
	if all == nil {
		all = body.Takings{}
	}
	all[id] = t
	if t == (body.Taking{}) {
		delete(all, id)
	}
	j.File.Measurements = all
}

// SetSystem changes the unit of figures that name none. Those that were typed
// keep their meaning: they are shown with their unit from now on.
func (j *Job) SetSystem(s unit.System) {
	j.File.Units.System = s
	clear(j.typed)
}

// Choose answers a question of style.
func (j *Job) Choose(option, choice string) {
	style := maps.Clone(j.File.Style)
	if style == nil {
		style = map[string]string{}
	}
	style[option] = choice
	j.File.Style = style
}

// SwitchTruing switches one truing off, or on again.
func (j *Job) SwitchTruing(id string) {
	off := slices.Clone(j.File.Untrued)
	if i := slices.Index(off, id); i >= 0 {
		j.File.Untrued = slices.Delete(off, i, i+1)
		return
	}
	j.File.Untrued = append(off, id)
}

// level is where the rules of one level are written.
func (j *Job) level(l rules.Level) *rules.Values {
	switch l {
	case rules.House:
		return &j.File.Rules.House
	case rules.Client:
		return &j.File.Rules.Client
	case rules.Job, rules.Built:
	}
	return &j.File.Rules.Job
}

// EditRule takes what was typed for a rule: at the level where its value comes
// from, for the house when it is the default.
func (j *Job) EditRule(d rules.Def, text string) {
	l, ok := j.edited[d.ID]
	if !ok {
		if l, _ = j.Rule(d.ID); l == rules.Built {
			l = rules.House
		}
	}
	j.edited[d.ID] = l
	j.typed[rulePath(l, d.ID)] = text
	j.setRule(l, d, text)
}

// setRule writes a rule at a level; an empty text takes it out there. Text that
// is no such value goes into the file as it is, for the core to refuse.
func (j *Job) setRule(l rules.Level, d rules.Def, text string) {
	into := j.level(l)
	values := maps.Clone(*into)
	if values == nil {
		values = rules.Values{}
	}
	values[d.ID] = ruleText(d, text, j.System())
	if values[d.ID] == "" {
		delete(values, d.ID)
	}
	*into = values
}

// ruleText is a rule as it is written down: a length without a unit is in the
// tape's own.
func ruleText(d rules.Def, text string, tape unit.System) string {
	if q, err := unit.ParseSigned(text, tape); err == nil && d.Kind == rules.Length {
		return q.String()
	}
	return clip(strings.TrimSpace(text))
}

// forgetTyped shows every field as it is kept from now on.
func (j *Job) forgetTyped() {
	clear(j.typed)
	clear(j.edited)
}

// MoveRule writes the value that counts at another level, and nowhere else.
func (j *Job) MoveRule(to rules.Level, d rules.Def) {
	l, value := j.Rule(d.ID)
	if l == rules.Built {
		value = d.Default
	}
	for _, l := range []rules.Level{rules.House, rules.Client, rules.Job} {
		j.setRule(l, d, "")
		delete(j.typed, rulePath(l, d.ID))
	}
	delete(j.edited, d.ID)
	if to != rules.Built {
		j.setRule(to, d, value)
	}
}

// Rule returns where the value of a rule comes from, and its text there; the
// level is Built when none is written.
func (j *Job) Rule(id rules.ID) (rules.Level, string) {
	for _, l := range []rules.Level{rules.Job, rules.Client, rules.House} {
		if v, ok := (*j.level(l))[id]; ok {
			return l, v
		}
	}
	return rules.Built, ""
}

// RuleText is the text of a rule's field.
func (j *Job) RuleText(d rules.Def) string {
	l, value := j.Rule(d.ID)
	if at, ok := j.edited[d.ID]; ok {
		l = at
	}
	if t, ok := j.typed[rulePath(l, d.ID)]; ok {
		return t
	}
	if value == "" {
		value = d.Default
	}
	if d.Kind == rules.Length {
		if q, err := unit.ParseSigned(value, j.System()); err == nil {
			return j.bare(q)
		}
	}
	return value
}

// Cloth is the cloth of that number; the zero value when there is none yet.
func (j *Job) Cloth(i int) job.Cloth {
	if i < len(j.File.Cloth) {
		return j.File.Cloth[i]
	}
	return job.Cloth{}
}

// ClothText is the text of a field of a cloth.
func (j *Job) ClothText(i int, key string, q unit.Quantity) string {
	return j.text(clothPath(i, key), j.bare(q))
}

// EnterCloth reads what was typed for a length of a cloth.
func (j *Job) EnterCloth(i int, key, text string) unit.Quantity {
	return j.enter(clothPath(i, key), text)
}

// RemoveCloth takes a cloth out. What was typed for those after it moves with
// them.
func (j *Job) RemoveCloth(i int) {
	for _, texts := range []map[string]string{j.typed, j.Unread} {
		moved := map[string]string{}
		for at := i; at < len(j.File.Cloth); at++ {
			for path, text := range texts {
				if key, ok := strings.CutPrefix(path, clothPath(at, "")); ok {
					delete(texts, path)
					if at > i {
						moved[clothPath(at-1, key)] = text
					}
				}
			}
		}
		maps.Copy(texts, moved)
	}
	j.File.Cloth = slices.Delete(slices.Clone(j.File.Cloth), i, i+1)
}

// SetCloth changes one cloth, or adds it.
func (j *Job) SetCloth(i int, c job.Cloth) {
	all := append([]job.Cloth{}, j.File.Cloth...)
	if i >= len(all) {
		all = append(all, c)
	} else {
		all[i] = c
	}
	j.File.Cloth = all
}

// clip shortens a text to what a job file holds of a name.
func clip(s string) string { return clipTo(s, 200) }

// clipTo shortens a text to that many bytes, at a whole letter.
func clipTo(s string, most int) string {
	if len(s) <= most {
		return s
	}
	for ; ; most-- {
		if utf8.RuneStart(s[most]) {
			return s[:most]
		}
	}
}
