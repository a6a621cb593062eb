package ui

import (
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/draft/sketch"
	"chalkfold/draft/slip"
	"chalkfold/sync/link"
	"chalkfold/ui/drafting"
	"chalkfold/ui/flat"
	"chalkfold/ui/share"
)

// looked is a job that came by a link or in a file, and is only looked at: it
// touches nothing that is kept.
type looked struct {
	file   job.Job
	err    error // why it was not opened
	asFile bool  // it came in a file
	work   *Work
	sketch string // of the garment
	middle bool   // on a middle figure
	pieces string
	drawn  job.Job // that was drafted: what came, or on a middle figure
}

// lookAtLink looks at a job that came by a link.
func (d *Desk) lookAtLink(text string) {
	_, data, err := link.Decode(text)
	var f job.Job
	if err == nil {
		f, err = slip.Decode(data)
	}
	d.lookAtJob(&looked{file: f, err: err})
}

// openJobFile looks at a job file that was chosen.
func (d *Desk) openJobFile(text string) {
	f, err := job.Decode(strings.NewReader(text))
	d.lookAtJob(&looked{file: f, err: err, asFile: true})
}

// lookAtJob drafts and sketches what came.
func (d *Desk) lookAtJob(l *looked) {
	d.view.share.look = l
	d.tellShared("", "")
	if l.err == nil {
		_, l.err = garmentOf(l.file)
	}
	if l.err != nil {
		return
	}
	var m Maker
	m.core.Words = d.Words
	l.work = m.Make(jobOf(l.file.Clone()))
	r := l.work.Result
	l.drawn = l.file
	l.pieces, l.sketch, l.middle = "", "", r == nil
	if l.middle {
		j := l.file.Clone()
		j.Measurements = body.Middle(j.Figure)
		r, _ = m.core.Make(j) // without a draft there is no sketch
		l.drawn = j
	} else {
		scene, _ := drafting.Pieces(r, "", drafting.Lit{})
		l.pieces = scene.SVG
	}
	if r == nil {
		return
	}
	if f, ok := sketch.Of(r.Panels, r.Darts, r.Worn); ok {
		l.sketch = flat.Both(f, d.T("front"), d.T("back"))
	}
}

// lookingView tells what came.
func (d *Desk) lookingView() *share.Looking {
	l := d.view.share.look
	switch {
	case l == nil:
		return nil
	case l.err != nil && l.asFile:
		return &share.Looking{Fault: d.F("This is no job file that can be opened here, and nothing is changed. %s", sentenceOf(d.Err(l.err)))}
	case l.err != nil:
		return &share.Looking{Fault: d.sayLinkRefused(l.err)}
	}
	v := &share.Looking{Title: d.T("A draft to look at"), Sketch: l.sketch, Middle: l.middle, Pieces: l.pieces, Teach: l.sketch != ""}
	if l.file.Name != "" {
		v.Title = d.F("A draft to look at: %s", l.file.Name)
	}
	g, _ := draft.Find(l.file.Garment)
	v.Lines = append(v.Lines, d.T(g.Name))
	measured := d.T("No measurements are in it. Keep it, then take those of your client.")
	if n := len(l.file.Measurements); n > 0 {
		measured = d.N(n, "%d measurement is in it.", "%d measurements are in it.")
	}
	v.Lines = append(v.Lines, measured)
	ruled := rules.Values{}
	for _, level := range []rules.Values{l.file.Rules.House, l.file.Rules.Client, l.file.Rules.Job} {
		for id, value := range level {
			ruled[id] = value
		}
	}
	if n := len(compare(g.Rules, ruled, nil)); n > 0 {
		v.Lines = append(v.Lines, d.N(n, "%d rule differs from the default", "%d rules differ from the default"))
	}
	for _, c := range l.file.Cloth {
		if len(c.Kept) > 0 {
			v.Lines = append(v.Lines, d.N(len(c.Kept), "A cloth is in it, with %d piece in its place.", "A cloth is in it, with %d pieces in their places."))
		}
	}
	if r := l.work.Result; r != nil && r.Report.Stopped() {
		v.Stop = append(v.Stop, d.T("Keep it, and see Draft for what to mend."))
	}
	if len(l.file.Measurements) > 0 {
		for _, w := range l.work.Whys {
			v.Stop = append(v.Stop, d.F("%s: %s", w.What, w.Text))
		}
	}
	return v
}

// leaveLook forgets what came.
func (d *Desk) leaveLook() {
	d.view.share.look, d.view.share.paste = nil, ""
	d.tellShared("", "")
}

// keepLooked makes a new job of what was looked at.
func (d *Desk) keepLooked() {
	l := d.view.share.look
	if l == nil || l.err != nil {
		return
	}
	if d.keeper != nil && !d.settled() {
		d.tellShared("kept", d.T("The job on the desk is not saved yet. Try again when it is."))
		return
	}
	d.begin(jobOf(l.file), stageTape)
}

// teachLooked begins a lesson about what was looked at. Nothing of it is kept until
// the student wishes it.
func (d *Desk) teachLooked() {
	if l := d.view.share.look; l != nil && l.sketch != "" {
		d.beginLesson(l.drawn, false)
	}
}
