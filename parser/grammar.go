package parser

import (
	"sync"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// The grammar of the trade's language. It says how lengths, angles and grades
// are written, which is where the language is strict; words come in any order
// and are only told apart here. What they mean is in the vocabulary, and which
// number belongs to which word is settled when the tree is read.
//
// It cannot fail: any token that is no part of a measure is a word or a mark.
// So a message that makes no sense still parses, and what is wrong with it is
// found where the nearest thing that would make sense is at hand.

// message = { Dash | Any | Word | measure | any other token } .
//
// That much is not worth a grammar's while: see [items].

// measure = number [ Foot [ [ Dash ] number [ Inch ] ] | Inch [ Fraction ] | Metric | Degree | Percent ] [ Plural ]
//
//	| [ Article ] ( Inch | Foot ) And fraction
//	| Article ( Inch | Foot ) .
//
// What is most often met stands first.
type measure struct {
	Number  *number   `parser:"  @@"`
	Foot    string    `parser:"  ( @Foot"`
	Dash    string    `parser:"    ( @Dash?"`
	Inches  *number   `parser:"      @@ (?! Foot)"`
	Mark    string    `parser:"      @Inch? )?"`
	Inch    string    `parser:"  | Dash? @Inch (?! And ( Article | Digit | Whole )? ( FractionWord | Fraction ) )"`
	After   string    `parser:"    @Fraction?"` // 12"5/8
	Metric  string    `parser:"  | @Metric"`
	Degree  string    `parser:"  | @Degree"`
	Percent string    `parser:"  | @Percent )?"`
	Plural  string    `parser:"  @Plural?"`
	UnitAnd string    `parser:"| Article? @( Inch | Foot ) And"` // inch and a half
	AndPart *fraction `parser:"  @@"`
	Unit    string    `parser:"| Article @( Inch | Foot )"` // an inch
	Pos     lexer.Position
	EndPos  lexer.Position
}

// number = ( Whole | cardinal ) [ [ Dash | And ] fraction ] | Decimal | fraction .
//
// A whole number before a fraction word is how many of them there are: 5 eighths.
type number struct {
	Whole    string    `parser:"  ( @Whole"`
	Words    *cardinal `parser:"  | @@ ) (?! Dash? FractionWord )"`
	Join     string    `parser:"  ( @( Dash | And )?"`
	Fraction *fraction `parser:"    @@ )?"`
	Decimal  string    `parser:"| @Decimal"`
	Lone     *fraction `parser:"| @@"`
	Pos      lexer.Position
	EndPos   lexer.Position
}

// fraction = Fraction | [ Article | Whole | cardinal ] [ Dash ] FractionWord .
type fraction struct {
	Slashed string    `parser:"  @Fraction"`
	Count   string    `parser:"| ( @( Article | Whole )"`
	Words   *cardinal `parser:"  | @@ )? Dash?"`
	Parts   string    `parser:"  @FractionWord"`
	Pos     lexer.Position
	EndPos  lexer.Position
}

// cardinal = [ Digit ] Hundred [ [ And ] tens ] | tens .
// tens = Ten [ [ Dash ] Digit ] | Teen | Digit .
type cardinal struct {
	Words []string `parser:"  @Digit? @Hundred ( And? ( @Ten ( Dash? @Digit | And @Digit (?! FractionWord ) )? | @Teen | @Digit ) )?"`
	Tens  []string `parser:"| ( @Ten ( Dash? @Digit | And @Digit (?! FractionWord ) )? | @Teen | @Digit )"`
}

// grammar is built once, when the first message needs it: most don't, and a
// command that answers one is over sooner. It is safe for concurrent use.
var grammar = sync.OnceValue(func() *participle.Parser[measure] {
	return participle.MustBuild[measure](
		participle.Lexer(tokens{}),
		participle.UseLookahead(participle.MaxLookahead),
	)
})

// Grammar is the language of measures in extended Backus-Naur form.
func Grammar() string { return grammar().String() }

// item is a measure, a mark or a word, at its place in the message.
type item struct {
	measure *measure
	mark    string
	word    string
	offset  int
}

// items cuts a message into measures, marks and words. It cannot fail: a token
// with which no measure begins is a word by itself.
func items(text string) []item {
	rest, err := lexer.Upgrade(&cutter{text: text})
	if err != nil {
		panic(err) // a cutter has none
	}
	out := make([]item, 0, len(text)/3)
	for {
		t := rest.Peek()
		i := item{offset: t.Pos.Offset}
		switch {
		case t.EOF():
			return out
		case t.Type == dashToken || t.Type == anyToken:
			i.mark = rest.Next().Value
		case mayMeasure(rest):
			i.measure = measureAt(rest)
		}
		if i.mark == "" && i.measure == nil {
			i.word = rest.Next().Value
		}
		out = append(out, i)
	}
}

// mayMeasure says whether a measure can begin with the next token. Most words
// that have a type of their own stand for themselves: a, and, in.
func mayMeasure(rest *lexer.PeekingLexer) bool {
	first, before := rest.Peek().Type, rest.MakeCheckpoint()
	rest.Next()
	second := rest.Peek().Type
	rest.LoadCheckpoint(before)
	switch first {
	case lexer.EOF, wordToken, andToken, metricToken, degreeToken, percentToken, pluralToken:
		return false
	case inchToken, footToken:
		return second == andToken // inch and a half
	case articleToken:
		return second == inchToken || second == footToken || second == dashToken || second == fractionWordToken
	}
	return true
}

// measureAt takes the measure that the tokens begin with, if they do.
func measureAt(rest *lexer.PeekingLexer) *measure {
	before := rest.MakeCheckpoint()
	if m := plainMeasure(rest); m != nil {
		return m
	}
	rest.LoadCheckpoint(before)
	m, err := grammar().ParseFromLexer(rest, participle.AllowTrailing(true))
	if err != nil {
		rest.LoadCheckpoint(before)
		return nil
	}
	return m
}
