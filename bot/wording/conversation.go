package wording

import (
	"slices"
	"strings"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/parser"
)

// Phrase is a fixed sentence of the conversation itself. Words in braces are
// filled in by [Say].
type Phrase string

// The phrases, each with what fills it in.
const (
	RemoveWhat    Phrase = "remove what"    // number
	NoJobsOf      Phrase = "no jobs of"     // words: that were searched for
	JobUnreadable Phrase = "job unreadable" // number

	Welcome Phrase = "welcome" // after thanks

	NothingToChange  Phrase = "nothing to change" // a change, with no ask before it
	AboutWhich       Phrase = "about which"       // a reply to a message that is about no job
	NothingToExplain Phrase = "nothing to explain"
	NothingToDraw    Phrase = "nothing to draw"
	NothingToUndo    Phrase = "nothing to undo"
	NothingToCancel  Phrase = "nothing to cancel"
	Canceled         Phrase = "canceled"   // a question that waited
	NoDrawing        Phrase = "no drawing" // of an answer that has none

	SetBack           Phrase = "set back"            // what: the setting as it is again
	LanguageAsWritten Phrase = "language as written" // each answer in the language of its ask
	KeptAgain         Phrase = "kept again"          // what: the row of the takeoff
	AsItWas           Phrase = "as it was"
	NothingDeleted    Phrase = "nothing deleted"

	SettingsAre    Phrase = "settings are"
	NothingToShare Phrase = "nothing to share"
	ShareThis      Phrase = "share this" // ask: as it is typed
	NothingWaits   Phrase = "nothing waits"
	WhatIsWrong    Phrase = "what is wrong"
	WhatNumber     Phrase = "what number"     // number: that was sent alone
	WhatNumberNow  Phrase = "what number now" // the same, after an answer

	BendExample  Phrase = "bend example"  // bend: what is asked with such bends
	PieceExample Phrase = "piece example" // number: what is asked of such a piece

	MoreWord       Phrase = "more word" // as it is said
	SettingsWord   Phrase = "settings word"
	HelpWord       Phrase = "help word"
	HelpButton     Phrase = "help button"
	SettingsButton Phrase = "settings button"
	WhyButton      Phrase = "why button"
	StepsAllButton Phrase = "steps all button"

	StepsButton Phrase = "steps button" // what stands on a button
	DrawButton  Phrase = "draw button"
	AddButton   Phrase = "add button"
	ShareButton Phrase = "share button"
	UndoButton  Phrase = "undo button"

	NoJobs      Phrase = "no jobs"
	EarlierJobs Phrase = "earlier jobs" // number: how many are not listed
	NoSuchJob   Phrase = "no such job"  // number
	NoJobToName Phrase = "no job to name"
	CallItWhat  Phrase = "call it what"
	Dropped     Phrase = "dropped" // what: the row of the job

	TakeoffOfWhat     Phrase = "takeoff of what"
	TakeoffOfWhichEnd Phrase = "takeoff of which end" // first and second: the fittings
	FaceLessDepth     Phrase = "face less depth"      // face, depth and source: of the depth
	AsYouSaid         Phrase = "as you said"          // the source of a depth that was given
	InPlaceOf         Phrase = "in place of"          // length, when: of the takeoff that was kept before
	TwoTakeoffs       Phrase = "two takeoffs"         // fitting, first and second: the lengths
	HowToMeasure      Phrase = "how to measure"
	NoTakeoffs        Phrase = "no takeoffs"
	CrewTakeoffs      Phrase = "crew's takeoffs" // the heading of their list
	SetBy             Phrase = "set by"          // by: a name
	HowToForget       Phrase = "how to forget"
	NoSuchTakeoff     Phrase = "no such takeoff"
	Forgotten         Phrase = "forgotten" // what: the row of the takeoff
	ForgetWhat        Phrase = "forget what"
	ForgetReally      Phrase = "forget really"
	AllForgotten      Phrase = "all forgotten"
	DataExported      Phrase = "data exported"
	ExportAlone       Phrase = "export alone" // where others read along

	MetricOn        Phrase = "metric on"
	MetricOff       Phrase = "metric off"
	MillimetersKept Phrase = "millimeters kept"
	InchesKept      Phrase = "inches kept"
	CodeSet         Phrase = "code set" // code: its name
	CodeNone        Phrase = "code none"
	NoCodeButton    Phrase = "no code button"
	CodeWhich       Phrase = "code which"
	HandbookTwo     Phrase = "handbook two"
	HandbookThree   Phrase = "handbook three"
	HandbookOff     Phrase = "handbook off"
	LanguageSet     Phrase = "language set" // said in the new language
	InSixteenths    Phrase = "in sixteenths"
	InThirtySeconds Phrase = "in thirty-seconds"
	DrawAlways      Phrase = "draw always"
	DrawAsked       Phrase = "draw asked"
	Learning        Phrase = "learning"
	NotLearning     Phrase = "not learning"
	HearingAll      Phrase = "hearing all"
	HearingNamed    Phrase = "hearing named"
	OnlyInGroups    Phrase = "only in groups"
	OnlyForAdmins   Phrase = "only for admins"
	TalkOn          Phrase = "talk on" // answers are said too
	TalkOff         Phrase = "talk off"
	CantTalk        Phrase = "can't talk"
	NoSuchSetting   Phrase = "no such setting"
)

// Say words a phrase. Pairs are the names of what fills it in, each followed
// by what that is.
func Say(p Phrase, o Options, pairs ...string) string {
	return o.say("talk "+string(p), InShort(pairs)...)
}

// InShort cuts what fills in a phrase where it is longer than anything of ours: it is
// what somebody sent then.
func InShort(pairs []string) []string {
	pairs = slices.Clone(pairs)
	for i, value := range pairs {
		pairs[i] = cutAt(value, longestValue)
	}
	return pairs
}

// longestValue is longer than whatever of ours is put into a phrase, in letters.
const longestValue = 160

// Term is a word of the trade that was kept, such as how a takeoff was measured.
func Term(word string, o Options) string { return o.term(word) }

// MaterialName is what a material is called.
func MaterialName(m catalog.Material, o Options) string { return o.material(m) }

// Example is an ask to begin with, as it is typed, and what it gives.
type Example struct{ Ask, Gives string }

// Examples are three asks, each of which can be tapped or typed as it stands.
func Examples(o Options) []Example {
	return []Example{
		{o.say("example offset"), o.say("example offset gives")},
		{o.say("example rolling"), o.say("example rolling gives")},
		{o.say("example fall"), o.say("example fall gives")},
	}
}

// Greeting is what a newcomer reads first: what this is for, three examples with
// what each gives, and how to say one aloud.
func Greeting(o Options) string {
	lines := []string{o.say("greeting")}
	for _, e := range Examples(o) {
		lines = append(lines, e.Ask+": "+e.Gives)
	}
	return strings.Join(append(lines, o.say("greeting voice"), o.say("greeting more"), o.say("notice briefly")), "\n")
}

// Help shows what can be asked, by example and with what each gives, in groups.
func Help(o Options) string { return o.say("help") }

// Set is what a person set.
type Set struct {
	Metric, ThirtySeconds, Draw, Talk, Learn bool

	Code   figure.Code // that drains are laid by
	Speaks bool        // answers can be said aloud here

	Language parser.Language
	Handbook figure.HandbookSet
}

// SettingRow is one setting as it is, and what to say to have it otherwise.
type SettingRow struct{ Is, Says string }

// Settings are the rows of all settings.
func Settings(s Set, o Options) []SettingRow {
	row := func(name string, on bool) SettingRow {
		if on {
			name += " on"
		}
		is, _ := o.said("setting "+name, "code", string(s.Code))
		says, _ := o.said("setting " + name + " says")
		return SettingRow{is, says}
	}
	rows := []SettingRow{
		row("metric", s.Metric), row("language", s.Language == parser.Spanish),
		row("handbook", s.Handbook != figure.ExactFigures), row("code", s.Code != figure.NoCode), row("draw", s.Draw), row("learn", s.Learn),
	}
	if !s.Metric {
		rows = slices.Insert(rows, 1, row("division", s.ThirtySeconds)) // a metric tape has no other
	}
	if s.Speaks {
		rows = append(rows, row("talk", s.Talk))
	}
	return rows
}
