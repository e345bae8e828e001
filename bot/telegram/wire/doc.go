// Package wire is the Bot API as far as dogleg uses it: the calls, and what comes
// back. It keeps nothing between two calls, and knows nothing of the conversation.
//
// A [Client] makes calls. This is the only package that knows the Telegram library,
// and of that only its request functions and its error. A refusal by
// the server is a [*Refusal], and [VerdictOn] says what follows from any error. An
// [Update] is read by [Decode] as far as it is looked at. [Split] and [Formatted]
// bring an answer into the form that Telegram takes.
//
// No error and no line of a log holds the token: [Redacting].
package wire
