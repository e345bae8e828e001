package parser

import (
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

// message = { item } .
type message struct {
	Items []*item `parser:"@@*"`
}

// item = mark | word | measure .
//
// What is most often met stands first; a word that may begin a measure is one
// by itself only where no measure begins.
type item struct {
	Pos     lexer.Position
	Mark    string   `parser:"  @( Dash | Any )"`
	Word    string   `parser:"| @Word"`
	Measure *measure `parser:"| @@"`
	Other   string   `parser:"| @( And | Article | Inch | Foot | Metric | Degree | Percent | Plural | Digit | Teen | Ten | Hundred | FractionWord )"`
}

// measure = [ Article ] ( Inch | Foot ) And fraction
//
//	| Article ( Inch | Foot )
//	| number [ Foot [ [ Dash ] number [ Inch ] ] | Inch [ Fraction ] | Metric | Degree | Percent ] [ Plural ] .
type measure struct {
	UnitAnd string    `parser:"  Article? @( Inch | Foot ) And"` // inch and a half
	AndPart *fraction `parser:"  @@"`
	Unit    string    `parser:"| Article @( Inch | Foot )"` // an inch
	Number  *number   `parser:"| @@"`
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
	Pos     lexer.Position
	EndPos  lexer.Position
}

// number = Decimal | fraction | ( Whole | cardinal ) [ [ Dash | And ] fraction ] .
type number struct {
	Decimal  string    `parser:"  @Decimal"`
	Lone     *fraction `parser:"| @@"`
	Whole    string    `parser:"| ( @Whole"`
	Words    *cardinal `parser:"  | @@ )"`
	Join     string    `parser:"  ( @( Dash | And )?"`
	Fraction *fraction `parser:"    @@ )?"`
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

// grammar is built once; it is safe for concurrent use.
var grammar = participle.MustBuild[message](
	participle.Lexer(tokens),
	participle.Elide("Space"),
	participle.Map(classify, "Word"),
	participle.UseLookahead(participle.MaxLookahead),
)

// Grammar is the language of measures in extended Backus-Naur form.
func Grammar() string { return grammar.String() }
