package prove

import (
	"maps"
	"strings"

	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
)

// Style is a style of a garment with the rules that go with it.
type Style struct {
	Name    string
	Garment string // empty is trousers
	Style   map[string]string
	// Method is "" for the garment's first.
	Method job.Method
	Rules  job.Rules
}

// StylesOf are n styles of any garment, by its own rules and all trued: of all
// the ways in which its questions can be answered, n that lie evenly apart, and
// that answer each question in every way where n suffice.
func StylesOf(g garment.Garment, n int) []Style {
	ways, choices := 1, 0
	for _, o := range g.Options {
		choices += len(o.Choices)
		if !o.OfFigure {
			ways *= len(o.Choices)
		}
	}
	// Steps by about the golden section, and prime to the whole, come everywhere,
	// though to some answers only late.
	const golden, tries = 0.618, 100
	var best []Style
	most := 0
	step := max(int(golden*float64(ways)), 1)
	for range tries {
		for gcd(step, ways) > 1 {
			step++
		}
		all := stepped(g, ways, step, n)
		if met := answered(all); met > most {
			best, most = all, met
		}
		if most == choices {
			break
		}
		step++
	}
	return best
}

// stepped are n styles, so many ways of answering apart. Where answers clash,
// one is given up for the other, so that one that clashes with many still comes.
// What is asked of the figure goes through its answers from style to style.
func stepped(g garment.Garment, ways, step, n int) []Style {
	var all []Style
	seen := map[string]bool{}
	for i := 0; i < ways && len(all) < n; i++ {
		asked := garment.Style{}
		rest := i * step % ways
		for k, o := range g.Options {
			if o.OfFigure {
				asked[o.ID] = o.Choices[(i+k)%len(o.Choices)].ID
				continue
			}
			asked[o.ID] = o.Choices[rest%len(o.Choices)].ID
			rest /= len(o.Choices)
		}
		full := g.Together(asked, "")
		name := answers(g, full)
		if g.Check(full) != nil || seen[name] {
			continue
		}
		seen[name] = true
		all = append(all, Style{Name: name, Garment: g.ID, Style: full})
	}
	return all
}

// answered is how many answers these styles give, each counted once.
func answered(all []Style) int {
	met := map[[2]string]bool{}
	for _, s := range all {
		for o, c := range s.Style {
			met[[2]string{o, c}] = true
		}
	}
	return len(met)
}

// answers are the names of the answers of a complete style.
func answers(g garment.Garment, s garment.Style) string {
	var names []string
	for _, o := range g.Options {
		for _, c := range o.Choices {
			if c.ID == s[o.ID] {
				names = append(names, c.Name)
			}
		}
	}
	return strings.Join(names, ", ")
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// Styles are the styles of trousers that each body is drafted in, all of them
// trued. Together they answer every question of style in every way, each closure with
// several others, and set rules at every level. The hem hangs 2 cm off the floor in all of them.
func Styles() []Style {
	all := []Style{
		{Name: "plain"},
		{
			Name:  "pressed front, tapered",
			Style: map[string]string{"front_dart": "pressed", "crease": "pressed", "leg": "tapered"},
			Rules: job.Rules{House: rules.Values{"centre_back_inlay": "1 1/2 in", "seat_tilt": "1 1/2 in"}},
		},
		{
			Name:  "stitched crease",
			Style: map[string]string{"crease": "tuck", "closure": "fly_right"},
			Rules: job.Rules{House: rules.Values{"crease_tuck": "1/8 in"}},
		},
		{
			Name:  "bare",
			Style: map[string]string{"front_dart": "none", "back_dart": "none", "pocket": "none", "leg": "free"},
			Rules: job.Rules{Client: rules.Values{"belt_loops": "0"}},
		},
		{
			Name:  "no front dart, stitched crease, wide band",
			Style: map[string]string{"front_dart": "none", "crease": "tuck", "leg": "tapered"},
			Rules: job.Rules{House: rules.Values{"waistband_width": "2 1/2 in"}, Client: rules.Values{"taper": "2 in"}},
		},
		{
			Name:  "narrow band, close leg, stretched inseam",
			Style: map[string]string{"closure": "fly_right", "front_dart": "pressed", "crease": "tuck"},
			Rules: job.Rules{
				House: rules.Values{"waistband_width": "1 1/4 in", "inseam_stretch": "1/4 in", "knee_ease": "2 in", "hip_ease": "1 in"},
				Job:   rules.Values{"inseam_stretch": "3/8 in"},
			},
		},
		{
			Name:  "roomy, free leg, inlay",
			Style: map[string]string{"leg": "free", "crease": "pressed"},
			Rules: job.Rules{
				House:  rules.Values{"centre_back_inlay": "1 1/2 in", "hip_ease": "3 in", "seam_allowance": "3/4 in"},
				Client: rules.Values{"thigh_ease": "3 in", "hem_allowance": "3 in"},
				Job:    rules.Values{"waist_ease": "1 in"},
			},
		},
		{
			Name:  "no back dart, tapered",
			Style: map[string]string{"back_dart": "none", "leg": "tapered", "pocket": "slant"},
			Rules: job.Rules{Client: rules.Values{"seam_allowance": "3/8 in"}, Job: rules.Values{"belt_loops": "7"}},
		},
	}
	all = append(all, more()...)
	for i := range all {
		r := rules.Values{"floor_clearance": "2 cm"}
		maps.Copy(r, all[i].Rules.Job)
		all[i].Rules.Job = r
	}
	return all
}

// By is the styles drafted by each of these methods.
func By(styles []Style, methods ...job.Method) []Style {
	var out []Style
	for _, m := range methods {
		for _, s := range styles {
			s.Method = m
			out = append(out, s)
		}
	}
	return out
}

// Job is the job of drafting a style for a body.
func (s Style) Job(b Body) job.Job {
	id := s.Garment
	if id == "" {
		id = "trousers"
	}
	j := job.New(id)
	j.Name, j.Figure, j.Measurements = s.Name+", "+b.ID, b.Figure, b.Taken
	j.Style, j.Rules = s.Style, s.Rules
	if s.Method != "" {
		j.Method = s.Method
	}
	return j
}
