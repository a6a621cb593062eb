package ui

import (
	"errors"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/draft/slip"
	"chalkfold/draft/unit"
	"chalkfold/sync/link"
	"chalkfold/ui/day"
	"chalkfold/ui/house"
	"chalkfold/ui/kit"
	"chalkfold/ui/style"
)

// houseViewed is how the house rules are looked at.
type houseViewed struct {
	group string
	rule  rules.ID
	find  string
	typed map[rules.ID]string // what the fields hold, as typed
	sure  string              // the set that a tap more deletes
	lent  string              // fragment of the link that lends the set in force; empty until it is asked for
	told  string              // what became of it
	paste string              // in the field for a link
	look  *lentLook

	effect effect
}

// lentLook is a rule set that came by a link and is only looked at.
type lentLook struct {
	lent    rules.Lent
	known   rules.Values
	unknown int
	fault   string
}

func (d *Desk) houseView() house.View {
	h, viewed := &d.house, &d.view.house
	v := house.View{
		Words: d.Words, Fractions: d.fractions, Rules: d.houseRows(), Name: d.setName(h.inForce()), Find: viewed.find,
		Group: viewed.group, Rule: viewed.rule, Sure: viewed.sure, Told: viewed.told, Paste: viewed.paste,
		OnName:  func(name string) { d.changeHouse("name", func(h *House) { h.set(h.InForce).Name = clip(name) }) },
		Methods: d.garment.Methods, Method: d.methodOf(h.inForce().Method),
		OnMethod: func(id string) {
			d.changeHouse("", func(h *House) { h.set(h.InForce).Method = job.Method(id) })
		},
		Effect:  viewed.effect.rows,
		OnFind:  func(text string) { viewed.find = text },
		OnGroup: func(name string) { viewed.group = toggled(viewed.group, name) },
		OnOpen:  func(id rules.ID) { viewed.rule = toggled(viewed.rule, id) },
		OnRule:  d.typeHouseRule,
		OnReset: func(id rules.ID) {
			delete(viewed.typed, id)
			d.changeHouse("", func(h *House) { delete(h.set(h.InForce).Values, id) })
		},
		OnResetAll: func() {
			viewed.typed = nil
			d.changeHouse("", func(h *House) { h.set(h.InForce).Values = nil })
		},
		OnForce: func(id string) {
			d.view.house = houseViewed{}
			d.changeHouse("", func(h *House) { h.force(id) })
		},
		OnCopy: func(id string) {
			d.changeHouse("", func(h *House) {
				if s := h.set(id); s != nil {
					h.add(d.deps.NewID(), d.setName(*s), s.Values, s.Method)
				}
			})
		},
		OnDelete: d.deleteSet,
		OnRecover: func(id string) {
			d.changeHouse("", func(h *House) { h.remove(id, 0) })
		},
		OnLend: d.lend, OnPaste: d.pasteLink,
		OnCopyLink:  func() { d.handOverLink(false) },
		OnShareLink: func() { d.handOverLink(true) },
		CanShare:    navigatorHas("share"),
		Job:         d.job.File.Name,
		OnKeepLent: func() {
			if l := viewed.look; l != nil {
				name := l.lent.Name
				if name == "" {
					name = d.T("Lent rules")
				}
				d.changeHouse("", func(h *House) { h.add(d.deps.NewID(), name, l.lent.Values, job.Method(l.lent.Method)) })
				d.leaveLent(d.F("“%s” is kept. Put it in force below when you want to work by it.", name))
			}
		},
		OnLentToJob: func() {
			if l := viewed.look; l != nil {
				d.job.File.Rules.House = l.known
				if m := job.Method(l.lent.Method); garmentHas(d.garment.ID, m) {
					d.job.File.Method = m
				}
				d.job.forgetTyped()
				d.changed("")
				d.leaveLent(d.T("The open job is drafted by these rules now. Undo in the job takes it back."))
			}
		},
		OnLeaveLent: func() { d.leaveLent("") },
	}
	v.OnHouse = d.makeHouse
	for _, l := range d.lessons() {
		v.Learned = append(v.Learned, d.sayLesson(l))
	}
	for _, s := range h.Sets {
		switch {
		case s.Deleted > 0:
			until := day.Of(time.UnixMilli(s.Deleted).Add(deletedFor).Local()).Text(d.Words)
			v.Deleted = append(v.Deleted, house.Set{ID: s.ID, Name: d.setName(s), Aside: d.F("until %s", until)})
		default:
			aside := d.T("The defaults, unchanged")
			if n := len(compare(d.garment.Rules, s.Values, nil)); n > 0 {
				aside = d.N(n, "%d rule differs from the default", "%d rules differ from the default")
			}
			v.Sets = append(v.Sets, house.Set{ID: s.ID, Name: d.setName(s), InForce: s.ID == h.InForce, Aside: aside})
		}
	}
	if viewed.lent != "" {
		v.Link = address() + "#" + viewed.lent
	}
	d.lookView(&v)
	return v
}

// methodOf is the method as the garment names it: its first where nothing, or
// nothing that it has, is chosen.
func (d *Desk) methodOf(m job.Method) string {
	if d.garment.Has(string(m)) {
		return string(m)
	}
	return d.garment.Methods[0].ID
}

// methodName is the name of a method of the garment, as shown.
func (d *Desk) methodName(id string) string {
	for _, m := range d.garment.Methods {
		if m.ID == id {
			return d.T(m.Name)
		}
	}
	return id
}

// garmentHas reports whether a garment can be drafted by this method.
func garmentHas(id string, m job.Method) bool {
	g, ok := draft.Find(id)
	return ok && g.Has(string(m))
}

// toggled is what is open after a tap on it or another.
func toggled[T ~string](open, tapped T) T {
	if open == tapped {
		return ""
	}
	return tapped
}

// houseRows are the rules of the garment with their values in the set in force.
func (d *Desk) houseRows() []style.Rule {
	values := d.house.inForce().Values
	out := make([]style.Rule, 0, len(d.garment.Rules))
	for _, def := range d.garment.Rules {
		r := style.Rule{Def: def, Value: valueOf(def, values)}
		if values[def.ID] != "" {
			r.Level = rules.House
		}
		r.Text = r.Value
		if q, err := unit.ParseSigned(r.Value, d.job.System()); err == nil && def.Kind == rules.Length {
			r.Text = d.job.bare(q)
		}
		if t, ok := d.view.house.typed[def.ID]; ok {
			r.Text = t
		}
		r.Echo = style.Echo(def, r.Value, d.job.System(), d.Words)
		var bad *rules.BadRule
		if _, err := rules.Resolve([]rules.Def{def}, rules.Values{def.ID: r.Value}, nil, nil); errors.As(err, &bad) {
			r.Bad = sentenceOf(d.Say(bad.Why))
		}
		out = append(out, r)
	}
	return out
}

func (d *Desk) typeHouseRule(id rules.ID, text string) {
	def, ok := d.rule(id)
	if !ok {
		return
	}
	if d.view.house.typed == nil {
		d.view.house.typed = map[rules.ID]string{}
	}
	d.view.house.typed[id] = text
	d.view.house.lent = ""
	d.changeHouse("rule."+string(id), func(h *House) { h.setRule(def, text, d.job.System()) })
}

// deleteSet deletes a set at the second tap. That in force stays.
func (d *Desk) deleteSet(id string) {
	if d.view.house.sure != id {
		d.view.house.sure = id
		return
	}
	d.view.house.sure = ""
	if id != d.house.InForce {
		d.changeHouse("", func(h *House) { h.remove(id, d.deps.Now().UnixMilli()) })
	}
}

// houseDiffers is where the house rules of the open job are not those in force.
// A job that is cut stays as it was cut.
func (d *Desk) houseDiffers() []differing {
	if d.job == nil || d.job.Reached[Cut] != "" || d.view.style.apart {
		return nil
	}
	return compare(d.garment.Rules, d.job.File.Rules.House, d.house.inForce().Values)
}

// mostTold is how many differing rules are told in a note.
const mostTold = 4

// houseNote says so in a line, which opens to what can be done about it.
func (d *Desk) houseNote() app.UI {
	all := d.houseDiffers()
	var lines []string
	for _, x := range all[:min(len(all), mostTold)] {
		lines = append(lines, d.F("%s: here %s, in the house %s.", kit.Sentence(d.T(x.def.Name)), x.def.Told(x.here), x.def.Told(x.ours)))
	}
	if more := len(all) - len(lines); more > 0 {
		lines = append(lines, d.N(more, "And %d more.", "And %d more."))
	}
	title := d.N(len(all), "%d house rule here is not as in “%s”", "%d house rules here are not as in “%s”", d.setName(d.house.inForce()))
	return kit.Div().ID("house-note").Body(
		kit.Disclose("house-differs", title, "", d.view.style.differs, func() { d.view.style.differs = !d.view.style.differs }),
		kit.Div().Class("stack").Hidden(!d.view.style.differs).Body(
			app.Range(lines).Slice(func(i int) app.UI { return kit.P().Text(lines[i]) }),
		),
		kit.Div().Class("actions").Hidden(!d.view.style.differs).Body(
			kit.Button(d.T("Take the house's"), func() {
				d.job.File.Rules.House = d.houseValues()
				d.job.forgetTyped()
				d.changed("")
			}),
			kit.Act("house-give", "choice", d.T("For all new jobs too"), func() {
				d.changeHouse("", func(h *House) { d.giveToHouse(h) })
			}),
			kit.Act("house-apart", "choice", d.T("Leave them apart"), func() { d.view.style.apart = true }),
		),
	)
}

// giveToHouse writes the house rules of the open job into the set in force.
func (d *Desk) giveToHouse(h *House) {
	s := h.set(h.InForce)
	for _, x := range d.houseDiffers() {
		if v := d.job.File.Rules.House[x.def.ID]; v != "" {
			if s.Values == nil {
				s.Values = rules.Values{}
			}
			s.Values[x.def.ID] = v
			continue
		}
		delete(s.Values, x.def.ID)
	}
}

// lookAt reads a link, to be looked at.
func (d *Desk) lookAt(text string) {
	l := &lentLook{}
	d.view.house.look = l
	_, data, err := link.Decode(text)
	if err == nil {
		l.lent, err = slip.DecodeRules(data)
	}
	if err == nil {
		var unknown []rules.ID
		l.known, unknown, err = l.lent.Judge(d.garment.Rules)
		l.unknown = len(unknown)
	}
	if err != nil {
		l.fault = d.sayLinkRefused(err)
	}
}

func (d *Desk) leaveLent(told string) {
	d.view.house.look, d.view.house.paste, d.view.house.told = nil, "", told
}

// lookView shows what was lent against the rules in force.
func (d *Desk) lookView(v *house.View) {
	l := d.view.house.look
	if l == nil {
		return
	}
	v.Looking = &house.Looking{Name: l.lent.Name, Fault: l.fault, Unknown: l.unknown, Job: d.job.Reached[Cut] == ""}
	if theirs, ours := d.methodOf(job.Method(l.lent.Method)), d.methodOf(d.house.inForce().Method); theirs != ours {
		v.Looking.Rows = append(v.Looking.Rows, house.Row{Name: d.T("Method"), Theirs: d.methodName(theirs), Ours: d.methodName(ours)})
	}
	for _, x := range compare(d.garment.Rules, l.known, d.house.inForce().Values) {
		v.Looking.Rows = append(v.Looking.Rows, house.Row{Name: d.T(x.def.Name), Theirs: d.Say(x.def.Told(x.here)), Ours: d.Say(x.def.Told(x.ours))})
	}
}

// lend makes the link that lends the set in force.
func (d *Desk) lend() {
	s := d.house.inForce()
	data, err := slip.EncodeRules(rules.Lent{Name: d.setName(s), Values: s.Values, Method: string(s.Method)})
	if err == nil {
		d.view.house.lent, err = link.Encode(link.Rules, data)
	}
	d.view.house.told = ""
	if err != nil {
		d.view.house.told = sentenceOf(d.Err(err))
	}
}
