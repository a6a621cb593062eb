package prove

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
)

// Body is one row of a survey.
type Body struct {
	ID     string // of the subject
	Figure body.Figure
	Taken  body.Takings
}

// column is one measurement as a sum of columns, mm.
type column struct {
	id   body.ID
	plus string
	less string // taken off; "" when nothing is
	// spare: a survey without it can be read too.
	spare bool
}

// columns tells each measurement in the survey's columns.
func columns() []column {
	const waistHeight = "waistheightomphalion"
	return []column{
		{body.HipGirth, "buttockcircumference", "", false},
		{body.WaistGirth, "waistcircumference", "", false},
		{body.ThighGirth, "thighcircumference", "", false},
		{body.KneeGirth, "lowerthighcircumference", "", false}, // taken just above the kneecap
		{body.CalfGirth, "calfcircumference", "", false},
		{body.AnkleGirth, "anklecircumference", "", false},
		{body.HeelGirth, "heelanklecircumference", "", false},
		{body.WaistToHips, waistHeight, "buttockheight", false},
		{body.BodyRise, waistHeight, "crotchheight", false},
		{body.OutsideLegLength, waistHeight, "", false},
		{body.WaistToKnee, waistHeight, "kneeheightmidpatella", true},
		{body.TotalCrotchLength, "crotchlengthomphalion", "", false},
		{body.BackCrotchLength, "crotchlengthposterioromphalion", "", false},
		{body.FrontCrotchLength, "crotchlengthomphalion", "crotchlengthposterioromphalion", false},
		{body.Stature, "stature", "", false},
		{body.ChestGirth, "chestcircumference", "", true},
		{body.NeckGirth, "neckcircumference", "", true},
		{body.NeckBaseGirth, "neckcircumferencebase", "", true},
		{body.ShoulderLength, "shoulderlength", "", true},
		{body.BackWaistLength, "waistbacklength", "", true},
		{body.BackWidth, "interscyei", "", true},
	}
}

// Bodies reads a survey of comma-separated values with a line of column names;
// most bodies at most, all when it is nought. An error names line and column.
func Bodies(r io.Reader, most int) ([]Body, error) {
	rows := csv.NewReader(r)
	rows.ReuseRecord = true
	head, err := rows.Read()
	if err != nil {
		return nil, fmt.Errorf("bodies: no line of column names: %w", err)
	}
	s, err := newSurvey(slices.Clone(head))
	if err != nil {
		return nil, err
	}
	var all []Body
	for most <= 0 || len(all) < most {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("bodies: %w", err)
		}
		line, _ := rows.FieldPos(0)
		b, err := s.body(row, line)
		if err != nil {
			return nil, err
		}
		all = append(all, b)
	}
	if len(all) == 0 {
		return nil, errors.New("bodies: no rows below the column names; give a survey with at least one body")
	}
	return all, nil
}

// survey finds the columns of a file by their names.
type survey struct{ at map[string]int }

func newSurvey(head []string) (*survey, error) {
	s := &survey{at: map[string]int{}}
	for i, name := range head {
		s.at[name] = i
	}
	want := []string{"subjectid", "sex"}
	for _, c := range columns() {
		if c.spare {
			continue
		}
		want = append(want, c.plus)
		if c.less != "" {
			want = append(want, c.less)
		}
	}
	for _, name := range want {
		if _, ok := s.at[name]; !ok {
			return nil, fmt.Errorf("bodies: column %s is missing; give a survey with the columns of ANSUR II", name)
		}
	}
	return s, nil
}

// has reports whether the survey has the columns of a measurement.
func (s *survey) has(c column) bool {
	_, plus := s.at[c.plus]
	_, less := s.at[c.less]
	return plus && (less || c.less == "")
}

func (s *survey) body(row []string, line int) (Body, error) {
	b := Body{ID: row[s.at["subjectid"]], Taken: make(body.Takings, len(columns()))}
	switch sex := row[s.at["sex"]]; sex {
	case "Male":
		b.Figure = body.Men
	case "Female":
		b.Figure = body.Women
	default:
		return b, fmt.Errorf("bodies: line %d, column sex: %q: write Male or Female", line, sex)
	}
	cell := func(name string) (int, error) {
		mm, err := strconv.Atoi(row[s.at[name]])
		if err != nil || mm <= 0 {
			return 0, fmt.Errorf("bodies: line %d, column %s: %q: write whole millimetres", line, name, row[s.at[name]])
		}
		return mm, nil
	}
	for _, c := range columns() {
		if c.spare && !s.has(c) {
			continue
		}
		mm, err := cell(c.plus)
		if err != nil {
			return b, err
		}
		if c.less != "" {
			less, err := cell(c.less)
			if err != nil {
				return b, err
			}
			mm -= less
		}
		q, err := unit.ParseSigned(strconv.Itoa(mm), unit.Millimetres)
		if err != nil {
			return b, fmt.Errorf("bodies: line %d, %s: %w", line, c.id, err)
		}
		b.Taken[c.id] = body.Taking{Value: q}
	}
	return b, nil
}
