package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"dogleg/bot"
	"dogleg/bot/serve"
)

// keepFiles writes the files that go with a reply into a folder, that of the
// database, and says in the reply where each is. One that can't be written is
// named with the reason: what the conversation did is kept already.
func keepFiles(c *bot.Conversation, reply bot.Reply, folder string) bot.Reply {
	for _, f := range reply.Files {
		f, ok := c.Paint(f)
		if !ok {
			continue // which is in the log
		}
		path, err := writeBeside(folder, f)
		line := "\nWritten: " + path
		if err != nil {
			line = fmt.Sprintf("\nNot written: %v", err)
		}
		reply.Text += line
		if n := len(reply.Records); n > 0 {
			reply.Records[n-1].Reply += line
		}
	}
	return reply
}

// mostAlike is how many files of one name are kept side by side.
const mostAlike = 1000

// writeBeside writes a file under its name, or with a number where that is
// taken: no earlier one is written over.
func writeBeside(folder string, f bot.File) (string, error) {
	ending := filepath.Ext(f.Name)
	name := strings.TrimSuffix(filepath.Base(f.Name), ending)
	path := filepath.Join(folder, name+ending)
	for n := 2; ; n++ {
		err := serve.NewFile(path, func(w io.Writer) error { _, err := w.Write(f.Content); return err })
		if !errors.Is(err, fs.ErrExist) || n > mostAlike {
			return path, err
		}
		path = filepath.Join(folder, fmt.Sprintf("%s-%d%s", name, n, ending))
	}
}
