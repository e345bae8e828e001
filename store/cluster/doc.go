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
// A server that answers pings but no requests may be cut off from the others:
// after three seconds another one is tried. No error and no line of the log
// holds a password or a token.
//
// # Caveats
//
// nats-server acknowledges a message when more than half of the servers have it,
// and they write it to their disks within two minutes. A machine that loses its
// power loses that; three machines don't at once. For a single server, set its
// sync_interval to always.
package cluster
