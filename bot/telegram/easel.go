package telegram

import (
	"fmt"
	"sync"
)

// easel is where files are made that have a recipe: one at a time, since a picture
// takes tens of megabytes while it is painted; and only a few are there that are not
// sent yet.
type easel struct {
	painting *sync.Mutex
	places   chan struct{}
}

// mostPainted is how many painted files may wait until the server has them.
const mostPainted = 8

func newEasel() easel { return easel{new(sync.Mutex), make(chan struct{}, mostPainted)} }

// painted is a letter with its file made, to be put away when it is sent: tried
// again, it is made again, so that who waits long holds nothing. Where the file can't
// be made the letter goes without, and one that is nothing else is nil. The error is
// that of a run that ended.
func (o *outbox) painted(l *letter) (ready *letter, putAway func(), err error) {
	nothing := func() {}
	if l.File == nil || l.File.Recipe == nil {
		return l, nothing, nil
	}
	select {
	case o.easel.places <- struct{}{}:
	case <-o.sending.Done():
		return nil, nothing, o.sending.Err()
	}
	putAway = func() { <-o.easel.places }
	file, ok := o.paint(l)
	if !ok {
		if l.File = nil; l.Text == "" {
			return nil, putAway, nil
		}
		return l, putAway, nil
	}
	file.Picture = file.Picture && l.File.Picture
	made := *l
	made.File = &file
	return &made, putAway, nil
}

// paint makes a letter's file when it is its turn, unless that was the death of those
// who tried.
func (o *outbox) paint(l *letter) (File, bool) {
	o.easel.painting.Lock()
	defer o.easel.painting.Unlock()
	deaths, end := o.Begin(fmt.Sprintf("picture %d", l.number))
	defer end()
	if deaths >= mostDeaths {
		o.Log.Error("a picture is left out: the process died over it", "number", l.number, "times", deaths)
		return File{}, false
	}
	return o.Paint(*l.File)
}
