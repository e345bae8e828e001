package bot

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
	"dogleg/store"
)

// settings are what a person set.
type settings struct {
	Language parser.Language // empty: that of each message
	Division geometry.Division
	Metric   bool        // bare numbers are millimeters, and so are answers
	Inches   bool        // bare numbers are inches: it was told
	Code     figure.Code // that drains are laid by
	Coded    bool        // that was asked, or told
	Handbook figure.HandbookSet
	Draw     bool // a picture with every answer
	Learn    bool // what isn't understood may be kept
	Talk     bool // answers are said too
}

// set changes a setting: "metric on", "handbook two", "spanish".
func (t *turn) set(s parser.Statement) part {
	object, value := s.Command.Object, strings.ToLower(s.Command.Value)
	before := t.settings
	var done wording.Phrase
	switch object {
	case "talk":
		p := t.setTalk(s, value == "on")
		t.note(store.Settings, t.settings)
		if t.settings != before {
			t.noteDeed(deed{Did: changedSet, Settings: &before, Says: settingNow(object, before)})
		}
		return p
	case "metric":
		t.settings.Metric, t.settings.Inches = value != "off", value == "off"
		done = choose(value != "off", wording.MetricOn, wording.MetricOff)
	case "handbook":
		t.settings.Handbook, done = handbook(value)
	case "language":
		t.settings.Language, done = parser.English, wording.LanguageSet
		if value == string(parser.Spanish) {
			t.settings.Language = parser.Spanish
		}
	case "division":
		t.settings.Division, done = geometry.Sixteenths, wording.InSixteenths
		if value == "32" {
			t.settings.Division, done = geometry.ThirtySeconds, wording.InThirtySeconds
		}
	case "draw":
		t.settings.Draw, done = value == "always", choose(value == "always", wording.DrawAlways, wording.DrawAsked)
	case "learn":
		return t.learn(s, value == "on")
	case "hearing":
		return t.setHearing(s, value == "all")
	default:
		return t.tell(s, false, wording.NoSuchSetting)
	}
	t.note(store.Settings, t.settings)
	t.noteDeed(deed{Did: changedSet, Settings: &before, Says: settingNow(object, before)})
	return t.tell(s, true, done)
}

// handbookPhrase says which figures are taken.
func handbookPhrase(h figure.HandbookSet) wording.Phrase {
	switch h {
	case figure.TwoDecimals:
		return wording.HandbookTwo
	case figure.ThreeDecimals:
		return wording.HandbookThree
	case figure.ExactFigures:
	}
	return wording.HandbookOff
}

func handbook(value string) (figure.HandbookSet, wording.Phrase) {
	switch value {
	case "off":
		return figure.ExactFigures, wording.HandbookOff
	case "two":
		return figure.TwoDecimals, wording.HandbookTwo
	}
	return figure.ThreeDecimals, wording.HandbookThree
}

func choose(first bool, a, b wording.Phrase) wording.Phrase {
	if first {
		return a
	}
	return b
}

// figuring is what package figure has to know of this person.
func (t *turn) figuring() figure.Settings {
	s := figure.Settings{
		Division: t.settings.Division,
		Metric:   t.metric(),
		Code:     cmp.Or(t.conversation.Code, t.settings.Code),
		Handbook: cmp.Or(t.conversation.Handbook, t.settings.Handbook),
	}
	// Figure takes the last that fits: the person's own before the crew's, and
	// of each the newest.
	for _, o := range oldestFirst(t.memory.CrewTakeoffs()) {
		s.Takeoffs = append(s.Takeoffs, t.measured(o, true))
	}
	for _, o := range oldestFirst(t.memory.Takeoffs()) {
		s.Takeoffs = append(s.Takeoffs, t.measured(o, false))
	}
	return s
}

// measured is a takeoff as package figure has to know it.
func (t *turn) measured(o store.Takeoff, crew bool) figure.OwnTakeoff {
	return figure.OwnTakeoff{
		System:  o.System,
		Fitting: o.Fitting,
		Size:    o.Size,
		Line:    o.Line,
		Length:  o.Length,
		How:     o.How,
		When:    t.day(o.When),
		By:      o.By,
		Crew:    crew,
	}
}

// day is how a day is cited: 3 Nov, with the year if it is another.
func (t *turn) day(when time.Time) string {
	day, year := when.Format("2 Jan"), ""
	if when.Year() != t.message.When.Year() {
		year = when.Format(" 2006")
	}
	if t.options(t.talk.Language).Language == parser.Spanish {
		day = when.Format("2 ") + spanishMonths[when.Month()-1]
	}
	return day + year
}

var spanishMonths = [...]string{"ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"}

// oldestFirst puts takeoffs in the order they were measured.
func oldestFirst(takeoffs []store.Takeoff) []store.Takeoff {
	slices.SortStableFunc(takeoffs, func(a, b store.Takeoff) int { return a.When.Compare(b.When) })
	return takeoffs
}

// systemName is what a system is called; one that the catalog has dropped keeps
// the name it is stored under.
func systemName(id string) string {
	if s, ok := catalog.SystemByID(id); ok {
		return s.Name
	}
	return id
}
