// Teachear makes what the ear has to know of the trade: the dictionary, which says
// how each word sounds, and the language model, which says what is likely to
// follow what. From the top of the repository:
//
//	go run ./cmd/teachear
//
// Nothing in them is kept by hand twice. The words are those of the parser's
// vocabulary and of the corpus of messages under testdata/asks; how they sound
// is looked up in the dictionary of Debian's pocketsphinx-en-us, and in
// pronounced.dict where that lacks them. The model counts sentences that are
// made of the corpus and of the messages of people that are for teaching: each is
// said aloud, with other measures, sizes, bends, materials and synonyms in their
// places, with what people say and don't type around it, and half of them in pieces
// that are put together anew. So it learns how people ask and not which numbers
// somebody once asked with. With -without, some writers are held back, and the
// model's perplexity on what they say is printed.
//
// Speech that is no request has to be heard as such and not as the nearest
// request, so everyday words stand in the model too, marked with a ~.
//
// The same sources give the same files, to the byte. CI makes them anew and
// fails where they differ from what is committed.
package main

import (
	"bytes"
	"compress/gzip"
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"
	"strings"
)

func main() {
	log.SetFlags(0)
	sounds := flag.String("sounds", "/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict", "the dictionary of the language at large")
	into := flag.String("o", "bot/voice/model", "the folder to write to")
	without := flag.String("without", "", "writers to hold back, by their sets with commas between: the model's perplexity on what they say is printed, and nothing is written")
	flag.Parse()
	if *without != "" {
		if err := measure(*sounds, strings.Split(*without, ",")); err != nil {
			log.Fatal("teachear: ", err)
		}
		return
	}
	if err := teach(*sounds, *into); err != nil {
		log.Fatal("teachear: ", err)
	}
}

func teach(sounds, into string) error {
	d, err := readDictionary(sounds, "cmd/teachear/pronounced.dict")
	if err != nil {
		return err
	}
	s, err := newSampler(d, nil)
	if err != nil {
		return err
	}
	counts := newCounts()
	for range sentences {
		counts.add(s.sentence())
	}
	var trigrams, dictionary bytes.Buffer
	counts.model(len(s.messages)).write(&trigrams)
	if err := d.write(&dictionary, counts.words()); err != nil {
		return err
	}
	if err := keep(filepath.Join(into, "trade.lm.gz"), trigrams.Bytes()); err != nil {
		return err
	}
	return keep(filepath.Join(into, "trade.dict.gz"), dictionary.Bytes())
}

// sentences is how many the model counts: enough that another seed changes
// little, few enough to take seconds.
const sentences = 300_000

// keep writes a compressed file, without the time or name that gzip would add.
func keep(path string, content []byte) error {
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return err
	}
	if _, err := w.Write(content); err != nil {
		return err
	}
	if err := w.Close(); err != nil {
		return err
	}
	fmt.Printf("%s: %d kB, packed %d kB\n", path, len(content)/1024, packed.Len()/1024)
	return os.WriteFile(path, packed.Bytes(), 0o644)
}
