// Package parser reads the language of the trade: a line of text in, what was
// asked out. It does no trade maths and looks nothing up but the names of
// pipes; what an ask comes to is for the package that figures.
//
// # How a message is read
//
//	text ─ plain ─▶ tokens ─ grammar ─▶ items ─ vocabulary ─▶ elements ─ reading ─▶ Ask
//
// Phones write curly quotes, long dashes and fractions of one character; plain
// brings them to what the tokens are made of. The grammar says how a measure
// is written, which is where the language is strict: 12-5/8, 1' 6-1/2", "an
// inch and a half", 238 mm. It cannot fail: what is no measure is a word or a
// mark. The vocabulary, a set of tables beside the code, says what words and
// phrases mean, in English and Spanish. Then a message is cut into the things
// it says: at line ends, semicolons, "and then", and where it lists what
// differs.
//
// Which number belongs to which word is the hard part, since words come in any
// order: "12 set 45s 2 pvc", "2 pvc, 45s, set 12". So every number gets a list
// of labels it may carry (a role that a word nearby names, the angle, the size,
// a count, the set if no word claims it), each with a cost for what stands
// between. Every labelling is tried, and the cheapest that leaves no number
// over wins. Numbers that can be cut up two ways ("7 1/2") are tried both ways.
//
// A second reading that costs hardly more, and is real pipe too, is not thrown
// away: the message is asked back. Where one of two readings is no real pipe
// the other is taken, and the ask says so.
//
// # What it gives
//
// [Parse] gives a [Statement] for each thing said: an [Ask], a [Command] that
// does something with what was answered, or a [Misunderstanding], which says
// what was read, what is wrong, and what would work. [Answer] reads the bare
// answer to a question that was asked back; [Ask.With] changes an ask by a
// follow-up.
//
// # Caveats
//
// An Ask holds what the words say and no more; it may lack what an answer
// needs. A size is a name. A 22 is the bend of 22½ degrees, as the trade calls
// it. "Heavy" and "light" are worth 1/32 in, by common practice. Unknown words
// are passed over where every number has its place, but not where they stand in
// the place of a material or a role. Statements of more than ten numbers or a
// hundred words are refused rather than read slowly.
package parser
