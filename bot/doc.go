// Package bot is the conversation. It knows no transport: the terminal and
// Telegram hand a [Message] in and carry a [Reply] out.
//
// # How a message becomes an answer
//
//	text ──parser──▶ Ask ──figure──▶ Answer ──wording──▶ reply
//	        ▲                 ▲
//	   the question     the person's own takeoffs
//	   that waits       and settings
//
// [Conversation.Handle] takes one message through it. The parser makes
// statements of the text, and each is answered by itself: one that can't be
// figured spoils none of the others. Of a statement
//
//   - a whole ask is figured and worded, and kept as a job;
//   - a change ("same but 14") is applied to the last ask first;
//   - a command (explain, jobs, metric on) is carried out;
//   - a misunderstanding is worded.
//
// What can't be answered comes back as one of three errors, and each is a
// sentence that says what would work: *parser.Misunderstanding,
// *figure.Missing, *figure.Impossible. Anything else is our own fault; then the
// person is told so in one sentence, and the log is told why.
//
// # The one question
//
// When a fact is missing, the bot asks for that fact and keeps the ask with the
// question. The next message may be a bare answer: "2 pvc", "threaded". It is
// read as what was asked for, and only so. A whole new ask drops the question,
// a change is applied to the ask that waits, and a command leaves it waiting.
//
// # What is remembered
//
// A person's [Memory] holds their settings, their own takeoffs, their jobs, the
// question and where the talk stands. It lives in one transaction for each
// message, so that what Handle writes is kept whole or not at all, and the bot
// goes on after a restart where it was.
//
// A job keeps what was said. "explain" repeats how a job was figured at the
// time, even if the catalog was corrected since: the piece is cut. A change
// makes a new job, for it is another piece. A takeoff measured for the last job
// answers that job again under its number, for it is the same piece.
//
// What is said first is short; the whole of it and the sums are kept with the job,
// for "why" and "explain" (history.go).
//
// # Taking back
//
// What a message did to what is kept is remembered as a deed (undo.go): undo takes
// back the last one, and then the one before. Deeds are the person's own, also
// where the list is a group's, and hold nobody's name.
//
// # Whole messages that mean something
//
// phrases.csv has the words that mean something by themselves and are no
// measurement: hi, help, settings, done, no. They are read before all else, in
// both languages.
//
// # Takeoffs of one's own
//
// A takeoff comes in as it was measured: center to stop, face and depth, or the
// cut and the set of a dry fit. Package figure makes one length of each and
// questions what its fitting can't have; said once more, it is kept. Where the
// pipe was taken for another than it is, the next message may say so, and what
// was just kept moves there.
//
// # The cut list
//
// What was answered last can be put on a list, which is a room of its own: package
// cutlist. list.go hands it what it needs of the talk. Words about it are read before
// all else (order.go): what follows them is a name, or the number of a piece, and
// never a measure. The list is the person's own; in a group it is the group's, kept
// with the chat itself ([Message].Group).
//
// A reply that shows or changes the list carries it as a [Board], for an edge
// that can keep one message up to date.
//
// # Practice
//
// A problem that waits is like a question: a message that is one bare figure is
// marked as the answer to it, whatever else is talked about meanwhile. A
// question of the bot's own comes first. Package training is all that an apprentice
// is told, and says in an interface what it needs of the conversation (training.go).
//
// In a group one problem waits for all, kept with the chat itself
// ([Message].Group), and the first right figure has it. A wrong one comes back
// as [Reply].Private: whether it can be told to that person alone is for the
// edge to know. Whoever asks for the results of a group has them: how many each one
// had right, by the name that they have there.
//
// # Caveats
//
// The same message with the same memory makes the same words. Time comes in
// with the message, and there is no other source of difference: it also seeds
// the practice problems, where [Conversation].Seed doesn't.
//
// Nothing of one person reaches another, not within a group either: each has a
// memory of their own. The exceptions are made by hand: a takeoff given "for
// the crew" goes into a book that all in the chat read, with the name of who set
// it; anyone there may change it, and one's own goes before it. And a practice
// problem posed in a group is everyone's.
//
// "The last job" means the last that this person was answered. A crew that
// shares one account shares it.
package bot
