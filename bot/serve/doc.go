// Package serve runs the Telegram bot and keeps it alive: on one machine with one
// database file, or on several that share a bot.
//
// It joins what knows nothing of each other: the Telegram transport to the
// conversation and to the store (memory.go), the ear and the voice, the metrics.
// Beside them runs what keeps a service alive: settings that are checked before
// anything is opened, a pulse for systemd, backups while it serves, and taking out
// of the file what was forgotten.
//
// # Caveats
//
// One process at a time may have a database file open. With several machines
// (cluster.go) one process answers and the others stand by.
package serve
