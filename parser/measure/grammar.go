package measure

import (
	"io"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// The productions. Each says one way in which people write a measure; a stretch of
// a message may be read by several, and which of them was meant is not decided
// here. What a production reads is worked out in value.go.

// cardinal is a number in words: five, forty five, one hundred and twenty.
type cardinal struct {
	Tens  []string `parser:"  ( @Ten ( Dash? @Digit (?! Part | Hundred ) | And @Digit (?! Part | Ordinal ) )? | @Teen | @Digit (?! Hundred ) )"`
	Words []string `parser:"| @( Digit | Teen | Soft )? @Hundred ( And? ( @Ten ( ( Dash | And )? @Digit (?! Part | Ordinal ) )? | @Teen | @Digit (?! Part | Ordinal ) ) )?"`
}

// whole is a number without a fraction.
type wholeNumber struct {
	Figures string    `parser:"  @Whole"`
	Words   *cardinal `parser:"| @@"`
	Soft    string    `parser:"| @Soft"`
}

// unit is what stands behind a number.
type unit struct {
	Inch    string `parser:"  @Inch"`
	Foot    string `parser:"| @Foot"`
	Metric  string `parser:"| @Metric"`
	Degree  string `parser:"| @Degree"`
	Percent string `parser:"| @Percent"`
}

// fraction is a part of one: 5/8, five eighths, 5 8ths, a half, 58ths.
type fraction struct {
	Slashed string       `parser:"  @Slashed"`
	Ordinal string       `parser:"| @Ordinal"`
	Article string       `parser:"| ( @Article"`
	Count   *wholeNumber `parser:"  | @@ )? Dash?"`
	Part    string       `parser:"  ( @Part"`
	Thirty  []string     `parser:"  | @Ten Dash? @( \"second\" | \"seconds\" )"`
	Parts   string       `parser:"  | @Ordinal )"`
}

// plain is one number: 12, 45s, 12 in, forty fives, 110mm.
type plain struct {
	Tens    string       `parser:"( ( @Ten ( Dash | And )? )?"`
	Plurals string       `parser:"  @Plurals"`
	Decimal string       `parser:"| ( @Decimal"`
	Whole   *wholeNumber `parser:"  | @@ )"`
	Unit    *unit        `parser:"  ( (?! Foot Plural ) Dash? @@ )?"`
	Plural  string       `parser:"  ( Foot? @Plural )? )"`
}

// sounding is a number whose last word sounds like another: twenty ate, twenty ate
// and five eighths, three hundred and for.
type sounding struct {
	Tens     []string  `parser:"( ( @( Digit | Teen | Soft )? @Hundred And? )? @Ten Dash? | @( Digit | Teen | Soft )? @Hundred And )"`
	Soft     string    `parser:"@Soft"`
	Fraction *fraction `parser:"( And @@ )?"`
	Unit     *unit     `parser:"@@?"`
}

// part is a fraction alone: 5/8, three quarter inch.
type part struct {
	Fraction *fraction `parser:"@@"`
	Unit     *unit     `parser:"( Dash? @@ )?"`
	Plural   string    `parser:"@Plural?"`
}

// mixed is a whole number and a fraction: 12-5/8, 12 and 5 8ths, 12"5/8, two
// inches and a half.
type mixed struct {
	Whole    *wholeNumber `parser:"@@"`
	Inch     string       `parser:"@Inch?"`
	Join     string       `parser:"@( Dash | And | Article )*"`
	Fraction *fraction    `parser:"@@"`
	Unit     *unit        `parser:"( (?! Foot Plural ) Dash? @@ )?"`
	Plural   string       `parser:"( Foot? @Plural )?"`
}

// one is a unit by itself: an inch, inch and a half, a foot and a half.
type one struct {
	Article  string    `parser:"( @Article?"`
	Unit     string    `parser:"  @( Inch | Foot )"`
	Phrase   string    `parser:"| @PerFoot )"`
	Fraction *fraction `parser:"( ( And | Article | Inch )+ @@ )?"`
	Again    string    `parser:"@Inch?"`
}

// feet are feet with inches behind them: 5' 2-1/4", 5 foot 6.
type feet struct {
	Feet   *wholeNumber `parser:"( @@"`
	Half   string       `parser:"| @( Decimal | Article ) )"`
	Mark   string       `parser:"@Foot ( Dash | And )*"`
	Mixed  *mixed       `parser:"( @@"`
	Part   *part        `parser:"| @@"`
	Inches *hard        `parser:"| @@ )"`
}

// hard is a whole number that no other word sounds like.
type hard struct {
	Decimal string    `parser:"( @Decimal"`
	Figures string    `parser:"| @Whole"`
	Words   *cardinal `parser:"| @@ )"`
	Inch    string    `parser:"( Dash? @Inch )?"`
	Plural  string    `parser:"@Plural?"`
}

// simple is any of these where another production has a measure in it.
type simple struct {
	Feet  *feet  `parser:"  @@"`
	Mixed *mixed `parser:"| @@"`
	Part  *part  `parser:"| @@"`
	One   *one   `parser:"| @@"`
	Plain *plain `parser:"| @@"`
}

// leaning is a measure a hair over or under: 12-5/8 heavy, 12 5 8 heavy.
type leaning struct {
	Heard   *heard  `parser:"( @@"`
	Measure *simple `parser:"| @@ ) Comma?"`
	Lean    string  `parser:"@Lean"`
}

// leaningBefore is a measure whose word stands in front: a strong 9 and 3/4, 8 and a
// strong 3/8.
type leaningBefore struct {
	Whole   *wholeNumber `parser:"( @@ And )? Article?"`
	Lean    string       `parser:"@Lean"`
	Measure *simple      `parser:"@@"`
}

// shy is a measure told by what it lacks: a 16th shy of 9.
type shy struct {
	By      *part   `parser:"@@"`
	Shy     string  `parser:"@Shy"`
	Measure *simple `parser:"@@"`
}

// beyond is a measure told by what it has over another: an eighth over ten.
type beyond struct {
	By      *part   `parser:"@@"`
	Over    string  `parser:"@( \"over\" | \"past\" )"`
	Measure *simple `parser:"@@"`
}

// meters are meters with centimeters or a part behind them: 1 meter 20, a meter ten,
// un metro y medio.
type meters struct {
	Whole    *wholeNumber `parser:"( ( @@"`
	Article  string       `parser:"  | @Article )"`
	Meter    string       `parser:"  @Metric"`
	Phrase   string       `parser:"| @PerMeter )"`
	Fraction *fraction    `parser:"( And @@"`
	Rest     *hard        `parser:"| @@ )"`
}

// tensAndArticle are tens and one, said by an article where Spanish says "and" between
// them: treinta y una, cuarenta y una y media.
type tensAndArticle struct {
	Tens     string    `parser:"@Ten"`
	Between  string    `parser:"@And Article"`
	Fraction *fraction `parser:"( And @@ )?"`
	Unit     *unit     `parser:"@@?"`
}

// articleAndPart is one, said by an article, and a part of it: una y media.
type articleAndPart struct {
	Article  string    `parser:"@Article And"`
	Fraction *fraction `parser:"@@"`
	Unit     *unit     `parser:"@@?"`
}

// colonFraction is a fraction whose stroke slipped: 1:4, 14 n 1:4.
type colonFraction struct {
	Whole string `parser:"( @Whole ( And | Dash ) )?"`
	Over  string `parser:"@Whole Colon"`
	Under string `parser:"@Whole"`
	Unit  *unit  `parser:"@@?"`
}

// strokeLost is a mixed number as phones write it behind "and": 11 and 34 or 11 and 3
// 4 for 11-3/4.
type strokeLost struct {
	Whole *wholeNumber `parser:"@@ And"`
	Lost  string       `parser:"@Whole"`
	Under string       `parser:"@Whole?"`
	Unit  *unit        `parser:"@@?"`
}

// runIn is a measure whose parts are run together: 814 for 8-1/4, 67/8, and 34cu for
// 3/4 copper.
type runIn struct {
	Stroked string `parser:"( @Stroked"`
	Whole   string `parser:"| @Whole )"`
	Unit    *unit  `parser:"@@?"`
}

// runBehind is a whole number with such a fraction behind it: 8 14 for 8-1/4.
type runBehind struct {
	Whole string `parser:"@Whole"`
	Part  string `parser:"@Whole"`
	Unit  *unit  `parser:"@@?"`
}

// softEighth is a mixed number whose eighths sound like another word: 14 and an ate,
// seven and three ate.
type softEighth struct {
	Whole *wholeNumber `parser:"@@ And"`
	Count *count       `parser:"( Article | @@ )"`
	Soft  string       `parser:"@Soft"`
	Unit  *unit        `parser:"@@?"`
}

// count is one digit, in figures or as a word.
type count struct {
	Figures string `parser:"  @Whole"`
	Word    string `parser:"| @Digit"`
}

// interrupted is a mixed number with a stop or a comma in it, as phones set them where
// somebody takes a breath: twenty six. And a half; 5.1/2.
type interrupted struct {
	Whole    *wholeNumber `parser:"@@"`
	Joined   bool         `parser:"( @( And ( Stop | Comma ) | ( Stop | Comma ) And ) | Stop (?= Slashed ) )"`
	Fraction *fraction    `parser:"@@"`
	Unit     *unit        `parser:"( Dash? @@ )?"`
}

// tensApart are tens and a digit that a phone has parted where Spanish says "and" between
// them: 40 y 5, 40 y cincos.
type tensApart struct {
	Tens    string `parser:"@( Whole | Ten )"`
	Between string `parser:"@And"`
	Digit   string `parser:"@( Whole | Digit | Plurals )"`
	Plural  string `parser:"( Foot? @Plural )?"`
}

// slope is a fall for each foot or meter: 1/4 per foot, 18 mm per meter.
type slope struct {
	Measure  *simple `parser:"@@"`
	PerFoot  string  `parser:"( @PerFoot"`
	PerMeter string  `parser:"| @PerMeter )"`
}

// bare is a number without a unit.
type bare struct {
	Whole    *wholeNumber `parser:"( ( @@"`
	Join     string       `parser:"    @( Dash | And )*"`
	Fraction *fraction    `parser:"    @@? )"`
	Decimal  string       `parser:"  | @Decimal"`
	Lone     *fraction    `parser:"  | @@ )"`
}

// ratio is a fall as one number in another: 1 in 40, 1:60, 1/4 in 10 ft.
type ratio struct {
	Bare   *bare   `parser:"( @@"`
	Word   string  `parser:"  @( Colon | And | \"in\" | \"to\" | \"en\" | \"over\" | \"on\" | \"per\" | \"every\" | \"for\" ) ( \"every\" | \"each\" | \"cada\" )?"`
	Fall   *simple `parser:"| @@"`
	Words  string  `parser:"  @( \"in\" | \"to\" | \"en\" | \"over\" | \"on\" | \"per\" | \"every\" | \"for\" | \"cada\" ) ( \"every\" | \"each\" | \"cada\" )? )"`
	Length *simple `parser:"( Article (?= Hundred ) )? @@"`
}

// roundRatio is a ratio in round tens, where a digit follows that is another's: one in
// forty one point six meters.
type roundRatio struct {
	Fall string `parser:"@Digit ( \"in\" | \"to\" | \"en\" )"`
	Ten  string `parser:"@Ten (?= Digit )"`
}

// percentage is a slope in hundredths.
type percentage struct {
	Ahead   string   `parser:"@Ahead?"`
	Comma   *comma   `parser:"( @@"`
	Pointed *pointed `parser:"| @@"`
	Mixed   *mixed   `parser:"| @@"`
	Part    *part    `parser:"| @@ Article?"`
	Plain   *plain   `parser:"| @@ )"`
	Percent string   `parser:"@Percent?"`
}

// bend is a bend by its part of a turn: 1/8 bend, eighth bends, 8th bend.
type bend struct {
	Fraction *fraction `parser:"@@ Dash?"`
	Bend     string    `parser:"@Bend"`
}

// nominal is a size by its metric name: DN100.
type nominal struct {
	DN    string `parser:"( @Nominal Dash?"`
	Whole string `parser:"  @Whole"`
	Size  string `parser:"| @Whole Nominal )"`
}

// comma is a decimal with a comma, or a thousand with one: 12,5 and 1,200.
type comma struct {
	Before string `parser:"@Whole Comma"`
	After  string `parser:"@Whole"`
	Unit   *unit  `parser:"@@?"`
}

// pointed is a decimal in words: four point two, point three, two point oh five, six
// forty two point one eight.
type pointed struct {
	Said   *pairOfNumbers `parser:"( @@"`
	Before *wholeNumber   `parser:"| @@ )? Point"`
	Digits []string       `parser:"( @( Zero | Digit ) @Digit+"`
	After  *wholeNumber   `parser:"| @@ )"`
	Unit   *unit          `parser:"@@?"`
}

// pairOfNumbers are hundreds and what is beyond them: three fifty, twelve forty.
type pairOfNumbers struct {
	Many string   `parser:"@( Digit | Teen | Ten )"`
	Tens []string `parser:"( @Ten @Digit? | @Teen )"`
}

// hundreds are told as two numbers: three fifty, twelve forty, one twelve and a half.
type hundreds struct {
	Pair     *pairOfNumbers `parser:"@@"`
	Fraction *fraction      `parser:"( And @@ )?"`
	Unit     *unit          `parser:"@@?"`
}

// figures are told one by one, or with an "oh" between: one three five, one oh ate, two
// one oh, one one two and a half.
type figures struct {
	First    string    `parser:"@( Digit | Teen | Ten )"`
	Second   string    `parser:"@( Digit | Zero )"`
	Third    string    `parser:"@( Digit | Zero | Plurals | Soft )"`
	Fraction *fraction `parser:"( And @@ )?"`
	Unit     *unit     `parser:"@@?"`
	Plural   string    `parser:"( Foot? @Plural )?"`
}

// strokeBlank is a fraction with a blank in the place of its stroke: 1 8 for 1/8.
type strokeBlank struct {
	Over  string `parser:"@Whole"`
	Under string `parser:"@Whole"`
	Unit  *unit  `parser:"@@?"`
}

// tens are alone where a number of one digit follows that is another's: thirty two
// inch, for 30 and 2 inch.
type tens struct {
	Ten string `parser:"@Ten"`
}

// hundredAndTens are hundreds without a digit behind: one eighty, one ten.
type hundredAndTens struct {
	Many string `parser:"@( Digit | Teen )"`
	Ten  string `parser:"@Ten"`
}

// round is a number of hundreds with nothing behind it: five hundred and one more.
type round struct {
	Many    string `parser:"@( Digit | Teen )?"`
	Hundred string `parser:"@Hundred"`
	Unit    *unit  `parser:"@@?"`
}

// heard is a mixed number as phones write it: 75 8 for 7-5/8, 12 5 8.
type heard struct {
	Before []string `parser:"@Whole @Whole @Whole?"`
	Unit   *unit    `parser:"@@?"`
}

// root is a production that a measure may begin with. Needs are the types of which
// one must stand near, or it is not tried.
type root struct {
	form  Form
	needs []lexer.TokenType
	parse func(*lexer.PeekingLexer) (reading, bool)
}

// rooted makes a root of a production.
func rooted[P any](form Form, value func(*P) (reading, bool), needs ...lexer.TokenType) root {
	p := participle.MustBuild[P](participle.Lexer(definition{}), participle.UseLookahead(participle.MaxLookahead))
	return root{form: form, needs: needs, parse: func(in *lexer.PeekingLexer) (reading, bool) {
		tree, err := p.ParseFromLexer(in, participle.AllowTrailing(true))
		if err != nil {
			return reading{}, false
		}
		return value(tree)
	}}
}

// definition gives the grammar its names of types. Messages are cut up by Tokens.
type definition struct{}

// Symbols are the names that the productions have for the types of tokens.
func (definition) Symbols() map[string]lexer.TokenType { return typeNames }

// Lex is not used: the productions are given tokens.
func (definition) Lex(string, io.Reader) (lexer.Lexer, error) {
	return &stream{}, nil
}

// stream gives a production one token after the other, up to one that is part of
// no measure.
type stream struct {
	tokens []Token
	last   lexer.TokenType // of the token that was given before
}

// Next gives one token.
func (s *stream) Next() (lexer.Token, error) {
	if len(s.tokens) == 0 {
		return lexer.EOFToken(lexer.Position{}), nil
	}
	t := &s.tokens[0]
	if t.Type == NewLine || t.Type == Mark || t.Type == Word && !between(t.Text) || t.Type == Stop && !s.breath() {
		return lexer.EOFToken(lexer.Position{Offset: t.Begin}), nil
	}
	s.tokens, s.last = s.tokens[1:], t.Type
	return lexer.Token{Type: t.Type, Value: t.Text, Pos: lexer.Position{Offset: t.Begin}}, nil
}

// breath says whether the stop that comes next may stand inside a number.
func (s *stream) breath() bool {
	return s.last == And || len(s.tokens) > 1 && (s.tokens[1].Type == And || s.tokens[1].Type == Slashed)
}

// between says whether a word may stand between the two numbers of a ratio.
func between(word string) bool {
	switch word {
	case "over", "en", "on", "per", "every", "each", "cada", "past", "second", "seconds":
		return true
	}
	return false
}
