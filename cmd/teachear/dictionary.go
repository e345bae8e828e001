package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
)

// What marks a word in the model.
const (
	everyday = "~" // of everyday talk, which is no word of a request
	readOut  = "=" // a number that is read out, figure by figure, and measures nothing
	marks    = everyday + readOut
)

// dictionary is how words sound: for each the lines of its pronunciations,
// without the word.
type dictionary map[string][]string

// readDictionary reads files in the form of the CMU dictionary: a word, and the
// sounds that it is made of; "word(2)" is said another way.
func readDictionary(paths ...string) (dictionary, error) {
	d := dictionary{}
	for _, path := range paths {
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		lines := bufio.NewScanner(f)
		for lines.Scan() {
			word, sounds, _ := strings.Cut(lines.Text(), " ")
			word, _, _ = strings.Cut(word, "(")
			d[word] = append(d[word], strings.TrimSpace(sounds))
		}
		f.Close()
		if err := lines.Err(); err != nil {
			return nil, err
		}
	}
	return d, nil
}

// possessives adds how words sound with 's behind them, by their last sound,
// where no dictionary has it.
func (d dictionary) possessives(words []string) {
	for _, w := range words {
		w, _ = strings.CutSuffix(w, "'s")
		if d[w] == nil || d[w+"'s"] != nil {
			continue
		}
		sound := d[w][0]
		ending := " Z"
		switch last := sound[strings.LastIndexByte(sound, ' ')+1:]; {
		case slices.Contains([]string{"S", "Z", "SH", "CH", "JH", "ZH"}, last):
			ending = " IH Z"
		case slices.Contains([]string{"P", "T", "K", "F", "TH"}, last):
			ending = " S"
		}
		d[w+"'s"] = []string{sound + ending}
	}
}

// knows says whether all words can be said.
func (d dictionary) knows(words []string) bool {
	for _, w := range words {
		if d[w] == nil {
			return false
		}
	}
	return true
}

// write writes how the words sound.
func (d dictionary) write(w io.Writer, words []string) error {
	for _, word := range words {
		sounds := d[strings.TrimLeft(word, marks)]
		if sounds == nil {
			return fmt.Errorf("nothing says how %q sounds", word)
		}
		for i, s := range sounds {
			name := word
			if i > 0 {
				name = fmt.Sprintf("%s(%d)", word, i+1)
			}
			fmt.Fprintln(w, name, s)
		}
	}
	return nil
}
