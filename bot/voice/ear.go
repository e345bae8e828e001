package voice

import (
	"context"
	"errors"
)

// Ear is what listens to a sound.
type Ear interface {
	// Listen returns the guesses of each decoder, likeliest first; a decoder
	// that heard nothing has none. It returns early, with the context's error,
	// when the context ends.
	Listen(context.Context, Sound) ([][]Guess, error)
}

// Guess is what may have been said.
type Guess struct {
	// Text is in words, without figures and marks: "twelve and a half set". An
	// everyday word, one that no request has, begins with a ~.
	Text string
	// Behind is how much less likely it is than the decoder's first guess: a
	// difference of log-likelihoods on the engine's own scale, 0 for the first.
	Behind float64
}

// ErrNoEngine says that the recognizer or its sound model is not installed. It
// wraps what says what to install.
var ErrNoEngine = errors.New("voice notes need the recognizer: apt-get install pocketsphinx pocketsphinx-en-us")
