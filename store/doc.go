// Package store keeps what people told the bot, and what lets the bot be
// killed at any moment without losing a message or half-saving a job. It is
// one bbolt file, and this is the only package that knows so.
//
// # What a person keeps
//
// A [Person] is reached by a [Key]: the transport they write by, the chat, and
// who they are in it. Each person has
//
//   - takeoffs they measured themselves, one for each system, fitting, size
//     and line of fittings ([Person.SetTakeoff]);
//   - their last [KeptJobs] jobs, or as many as [DB.Keep] says, numbered from 1
//     and never renumbered ([Person.AddJob]). A job holds what was said at the
//     time, so that a catalog corrected later does not change a piece already
//     cut;
//   - a cut list, of at most [KeptCuts] pieces ([Person.AddCut]);
//   - five [Note]s that this package doesn't look into: settings, the question
//     that waits for its answer, where the talk stands, which message shows
//     the list, and what was not understood of one who lets it be kept.
//
// Nothing of one key reaches another, but for the one book of takeoffs that the
// people of a chat share ([Person.SetCrewTakeoff]). Takeoffs go to and fro as
// CSV, for a table on paper or for another machine ([WriteTakeoffs]); all that a
// person keeps goes out as JSON ([Person.Export]), and goes away altogether
// ([Person.Forget]).
//
// # What makes it crash-safe
//
// Everything that comes of one incoming message goes into one transaction
// ([DB.Update]): the job, the reply in the outbox ([Tx.Queue]), the mark that
// this message is done ([Tx.MarkDone]) and the place to read on from
// ([Tx.SetCursor]). Either all of it is on the disk or none is. Whoever reads
// messages from a server tells the server so only after Update has returned.
// After a restart the outbox still holds what was not yet sent, in order; an
// entry leaves it by [Tx.StrikeOff] once it was. A message that the server
// delivers twice is known by its mark, and one that can't be handled at all is
// put aside as it came ([Tx.Quarantine]) instead of stopping those behind it.
//
// Several messages may share one transaction, and should when they come
// together: a commit waits for the disk, a write into an open transaction
// doesn't.
//
// # Copies on several machines
//
// A database may be kept as a copy by each of several processes ([OpenCopy]), of
// which one at a time writes. What each of its transactions wrote, its [Changes],
// is handed to [DB.Ship] before it is on the disk there, to be put into a journal
// that all of them read; the others write it too ([DB.Apply]), in the same order.
// Where it can't be put into the journal, it isn't written. Each copy keeps in its
// file where in the journal it stands ([DB.Position]), so that a [DB.Backup] and
// the journal from there on make another copy. Two that hold the same have the same
// [DB.Hash].
//
// Who the one is, and where the journal is, is not this package's business. Where
// nobody asks for the changes, none are gathered.
//
// # Errors
//
// What [Open] may meet is told apart by [ErrLocked], [ErrNotDatabase],
// [ErrNewer], [ErrNoDirectory] and [ErrNotWritable]. A file that isn't ours is
// left as it is, to the byte. Damage further in is what [DB.Check] finds
// ([ErrDamaged]); [Restore] puts a backup in a file's place and keeps the file.
//
// The methods of [Tx] and [Person] return no errors. The first one that occurs
// is kept, everything after it does nothing, and Update returns it and writes
// nothing. So a conversation reads as a conversation, and still nothing is lost
// in silence.
//
// # Schema
//
// A version number stands in the file. [Open] brings an older file up to date
// step by step, each step in one transaction together with its new number, and
// refuses a newer one. To change the layout, append a step to migrations in
// schema.go and teach [DB.Check] the new invariants; never alter a step that
// was released. A copy is brought up to date by the one that writes, and the steps
// go through the journal like all else: so a newer program can follow an older one,
// and take over from it; an older one refuses what a newer one wrote ([ErrNewer]).
//
//	meta        version, forgotten, position
//	people      KEY → settings, question, state, takeoffs → …, jobs → NUMBER,
//	            board, cuts → NUMBER
//	users       TRANSPORT/USER/CHAT → KEY
//	crews       CHAT → takeoffs → …
//	outbox      NUMBER → chat, time, payload
//	seen        id → time
//	seen_order  NUMBER → id, the oldest first
//	cursors     name → source, position
//	quarantine  NUMBER → id, time, raw bytes
//
// Numbers are eight bytes, big end first, so that their order is that of the
// keys; all else is JSON. Behind each value of more than eight bytes stands a
// checksum.
//
// # Caveats
//
// One process at a time: the file is locked while it is open. Readers don't
// wait for the writer, but there is one writer at a time, and calling Update
// inside Update waits for ever.
//
// The file never shrinks by itself, and what was deleted stays readable in it
// until it is written over; [DB.Compact] takes both away. Copy it with
// [DB.Backup] while it is in use; a plain copy of an open file may be torn.
//
// bbolt keeps a checksum of its two header pages, not of the others. Each value of
// ours has one (seal.go), but those that no version has written since 5. Open finds
// a file that is cut short or isn't a database; only [DB.Check] finds damage
// further in.
//
// An id marked done is kept until it is older than [SeenFor] and at least
// [SeenKept] newer ones were marked. A server that picks its ids at random may
// use one of those again; with two thousand million to choose from, this
// package doesn't guard against it.
package store
