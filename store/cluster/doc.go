// Package cluster lets several machines be one bot. All that they have in
// common is in NATS JetStream, which keeps everything on three servers and goes
// on when one of them dies; nothing else imports NATS.
//
//	Telegram → receivers → stream of updates → the leading worker → journal → the others' copies
//	                                                ↓
//	                              clips in an object store, a queue → hearing workers
//
// One process figures more messages than Telegram takes from a bot, so work is
// not divided: within a bot one worker leads at a time, the others follow and
// take over when it is gone. Any number may receive, any number may hear.
//
// # What is kept where
//
// A [Cluster] is what NATS keeps of one bot, here the bot 4711:
//
//	dogleg_4711_updates    stream of Telegram's updates, dogleg.4711.updates.CHAT
//	dogleg_4711_journal    stream of what each transaction wrote, dogleg.4711.journal
//	dogleg_4711_snapshots  object store: the whole database now and then
//	dogleg_4711_hearing    work queue of clips to be heard, dogleg.4711.hearing
//	dogleg_4711_clips      object store: the clips, for an hour at most
//	dogleg_4711_leases     keys that run out: who leads, who polls
//
// [Open] makes them where they aren't there, on three servers where there are
// as many. Each is marked as dogleg's and with an id of its own, so that a
// stream that somebody made anew is known as another one ([ErrReplaced]).
//
// # Updates
//
// [Cluster.Put] keeps an update and returns once more than half of the servers
// have it; then, and not before, Telegram may be told. The update's id is that
// of the message, so that one that comes to two receivers, or twice because an
// answer was lost, is kept once; after some minutes, or when servers restart,
// it may be kept twice, and the mark that the worker keeps in its database
// ([dogleg/store.Tx.MarkDone]) decides. Updates have places in one order for
// all chats, in which [Cluster.Next] hands them out. The place up to which they
// are dealt with is kept in the database by the same transaction that deals
// with them, under the name that [Cluster.UpdatesID] gives.
//
// # The journal, and copies of the database
//
// The database stays what it is, a file of package store; each worker has a
// [Copy] of it. What a transaction of the leader wrote goes as one message to
// the journal, with the place that must be the last one there. Only when
// JetStream has acknowledged it is the transaction committed in the leader's
// copy ([dogleg/store.DB].Ship); the others read the journal and write the same
// into theirs. Changes of more than 512 KB are several messages, one behind the
// other; what isn't whole when another transaction comes never happened.
//
// [Cluster.Copy] makes a copy of the newest snapshot and of the journal since.
// [Copy.Run] follows the journal until this process has the lease to lead.
// Then it catches up and writes an empty message, the fence: if that is refused,
// somebody has written meanwhile, and it catches up again; if it is accepted,
// nobody else can write any more without knowing it. Now it leads.
//
// What may go wrong while leading, and what comes of it:
//
//   - The leader dies. Its lease runs out after [DefaultLease], and the next one
//     has all that was acknowledged, and at most one transaction more, whose
//     acknowledgement didn't arrive.
//   - It stands still, and another one takes over. When it goes on, its next
//     write is refused, for the fence stands where it would be; the transaction
//     is rolled back in its copy, it is [ErrDeposed], and follows.
//   - An acknowledgement is lost. The same message is written again and refused,
//     and found to be the last one in the journal, by the word that it carries.
//   - Nobody answers. The write waits; after some seconds the lease has run out,
//     the leader's context ends, and 3 seconds later the write fails. It may be
//     in the journal all the same: then it comes back from there, as after a
//     crash.
//   - The commit fails in the leader's copy, because its disk is full: the
//     changes are in the journal, and written before the next transaction.
//
// When the journal is longer than 16 MB and than the last snapshot, and when
// somebody was forgotten, the leader puts the whole database into the store of
// snapshots, reads it back, and takes away from the journal what is in it, and
// then older snapshots. A crash between two of these steps leaves too much, never
// too little. Whoever finds that the journal begins behind his copy goes to the
// newest snapshot. Everybody's copy is compacted within the hour after somebody
// was forgotten. (What is taken away in NATS stays on the servers' disks until
// they write over it.)
//
// [Cluster.Load] makes a database file the state, where there is none yet, and
// [Cluster.Save] writes the state as a file: the ways there and back.
//
// # Leases
//
// [Cluster.Elect] runs something in one process at a time: the one long poller.
// A lease is a key that runs out unless it is written again, by compare-and-set.
// Who could not write it gives up before it has run out, by a clock that starts
// before each write was sent. Still, a lease only decides who works: a process
// may be stopped between looking at its lease and doing what it does. What must
// be right is decided by compare-and-set where it is written.
//
// # Hearing
//
// [Cluster.Ask] puts a clip into the object store and a note into the queue, and
// waits for the answer; [Cluster.Listen] hears one clip at a time, and tells the
// queue meanwhile that it is alive. A worker that dies over a clip is silent for
// ten seconds, then another gets it; after three dead ones it is given back.
// Who asked takes the clip away, also when he doesn't wait any longer.
//
// # What servers may do
//
// Requests that nobody answers are made again, with pauses, until there is an
// answer or the caller's context ends; nothing that was given up is sent later.
// A server that answers pings but no requests may be cut off from the others, and
// so may one that tells what it knows and takes nothing: after three seconds
// another one is tried. No error and no line of the log
// holds a password or a token.
//
// # Caveats
//
// nats-server acknowledges a message when more than half of the servers have it,
// and they write it to their disks within two minutes. A machine that loses its
// power loses that; three machines don't at once. For a single server, set its
// sync_interval to always. Should servers have lost what they had acknowledged,
// a leader's fence is refused and Run fails; the copy that has more than the
// journal is kept beside the new one, and the log says so. Where they have lost
// all, Copy fails with [ErrEmptied] rather than begin from nothing.
//
// One transaction waits for the other, and each for the servers: some hundreds
// to thousands in a second, of hundreds of updates where they come in batches.
package cluster
