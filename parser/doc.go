// Package parser reads the language of the trade: a message in, what was asked out. It
// does no trade maths and looks nothing up but the names of pipes; what an ask comes to
// is for the package that figures.
//
// # How a message is read
//
//	text ─▶ tokens ─▶ measures, words ─▶ paths ─ weights ─▶ readings ─▶ decision ─▶ Ask
//	        parser/measure  parser/words    parser/read               parser
//
// The language is strict only where it is about figures: 12-5/8, 1' 6-1/2", "an inch
// and a half", 238 mm, 1 in 40. The grammar of package measure says what a stretch of a
// message may be, and a vocabulary, tables beside the code, what words may mean. Neither
// decides: 7 1/2 is one number and two.
//
// Package read puts together every way to read the whole message: each number is taken
// for something or for nothing, each word for what it says of the pipe, each stretch for
// something asked, changed, told to do or only told. Weights learned from what people
// sent say how likely each is: those of features, each of which names something that is
// seen beside a number or a word, and those of a small network, which sees the message
// as a whole.
//
// This package decides. The likeliest reading is taken where it is likely enough, with a
// threshold for each sort of thing that is said, since a wrong number is worse than a
// question. Else up to three readings are offered. A few forms are no matter of
// likelihood and are read to the letter: a command in words of the vocabulary, a sum in
// figures, a bare answer to a question.
//
// # What it gives
//
// [Read] gives a [Statement] for each thing said: an [Ask], a [Command] that does
// something with what was answered, or a [Misunderstanding], which says what was read,
// what is wrong, and what would work. [Parse] is Read of a message that follows on
// nothing. [Answer] reads the bare answer to a question that was asked back; [Ask.With]
// changes an ask by a follow-up.
//
// # Caveats
//
// An Ask holds what the words say and no more; it may lack what an answer needs. A size
// is a name. A 22 is the bend of 22½ degrees, as the trade calls it. "Heavy" and "light"
// are worth 1/32 in, by common practice.
package parser
