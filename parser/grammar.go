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
// That much is not worth a grammar's while: see [elements].

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

// cardinal = tens | [ Digit ] Hundred [ [ And ] tens ] .
// tens = Ten [ [ Dash ] Digit ] | Teen | Digit .
type cardinal struct {
	Tens  []string `parser:"  ( @Ten ( Dash? @Digit | And @Digit (?! FractionWord ) )? | @Teen | @Digit (?! Hundred ) )"`
	Words []string `parser:"| @Digit? @Hundred ( And? ( @Ten ( Dash? @Digit | And @Digit (?! FractionWord ) )? | @Teen | @Digit ) )?"`
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

// stretch is a message cut into tokens, and how far it was read. The last token is
// its end.
type stretch struct {
	tokens []token
	at     int
	number number // of the measure that was read last; none keeps it once it is a quantity
}

func stretchOf(text string) *stretch {
	s := &stretch{tokens: make([]token, 0, pieces(text)+1)}
	for c := (cutter{text: text}); ; {
		t := c.next()
		s.tokens = append(s.tokens, t)
		if t.isEnd() {
			return s
		}
	}
}

func (s *stretch) peek() *token { return &s.tokens[s.at] }

// place is where the next token begins.
func (s *stretch) place() lexer.Position { return s.peek().place() }

// typeAt is the type of the token so many behind the next.
func (s *stretch) typeAt(n int) lexer.TokenType {
	return s.tokens[min(s.at+n, len(s.tokens)-1)].kind
}

// next takes a token; the end stays.
func (s *stretch) next() *token {
	t := &s.tokens[s.at]
	if !t.isEnd() {
		s.at++
	}
	return t
}

// mayMeasure says whether a measure can begin with the next token. Most words
// that have a type of their own stand for themselves: a, and, in.
func (s *stretch) mayMeasure() bool {
	first := s.peek().kind
	switch first {
	case lexer.EOF, wordToken, anyToken, andToken, dashToken, metricToken, degreeToken, percentToken, pluralToken:
		return false
	}
	second := s.typeAt(1)
	switch {
	case first == inchToken || first == footToken:
		return second == andToken // inch and a half
	case first == articleToken:
		return second == inchToken || second == footToken || second == dashToken || second == fractionWordToken
	}
	return true
}

// quantity takes the quantity that the tokens begin with, if they do.
func (s *stretch) quantity(text string) *quantity {
	if !s.mayMeasure() {
		return nil
	}
	before := s.at
	var plain measure
	if plain.take(s) {
		return quantityOf(&plain, text)
	}
	s.at = before
	ahead := s.tokens[s.at:min(len(s.tokens), s.at+mostTokens)]
	rest, err := lexer.Upgrade(&untilWord{ahead})
	if err != nil {
		panic(err) // what was cut once has no errors
	}
	m, err := grammar().ParseFromLexer(rest, participle.AllowTrailing(true))
	if err != nil {
		return nil
	}
	s.at += int(rest.RawCursor())
	return quantityOf(m, text)
}

// mostTokens is more than the longest measure has: without a bound a message of
// thousands of numbers would be gone through once for each of them.
const mostTokens = 64

// untilWord gives the grammar the next tokens up to one that is part of no measure,
// which is the end to it: the rest of the message is nothing to look ahead at.
type untilWord struct{ tokens []token }

// Next gives one token after the other.
func (m *untilWord) Next() (lexer.Token, error) {
	t := m.tokens[0]
	if len(m.tokens) == 1 { // as far as is looked ahead
		return lexer.EOFToken(t.place()), nil
	}
	if t.kind == wordToken || t.kind == anyToken || t.isEnd() {
		return lexer.EOFToken(t.place()), nil
	}
	m.tokens = m.tokens[1:]
	return t.forGrammar(), nil
}
