package main

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"dogleg/bot/hearing"
	"dogleg/bot/voice/aloud"
	"dogleg/parser/asks"
)

// readPeople reads the messages of people that are for teaching, but for those of
// the writers that are held back.
func (s *sampler) readPeople(folder string, without []string) error {
	sets, err := trainSets(folder)
	if err != nil {
		return err
	}
	for _, set := range sets {
		if slices.Contains(without, set) {
			continue
		}
		messages, err := asks.Read(filepath.Join(folder, set+".txt"))
		if err != nil {
			return err
		}
		for _, m := range messages {
			for line := range strings.Lines(m.Text) {
				text := asSpoken(line)
				said := s.aloud(text, aloud.Plainly)
				s.sounds.possessives(slices.DeleteFunc(slices.Clone(said), func(w string) bool { return !strings.HasSuffix(w, "'s") }))
				if len(said) > 0 && s.sounds.knows(said) {
					s.messages = append(s.messages, message{text, stated(m)})
				}
			}
		}
	}
	return nil
}

// trainSets are the names of the English sets that are for teaching.
func trainSets(folder string) ([]string, error) {
	f, err := os.Open(filepath.Join(folder, "parts.csv"))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, err
	}
	var sets []string
	for _, row := range rows[1:] {
		if row[1] == "train" && !strings.HasPrefix(row[0], "spanish") {
			sets = append(sets, row[0])
		}
	}
	return sets, nil
}

// stated are the figures that a message states by its label: others in it, of a
// door, a price or a day, are no measures and stay as they are.
func stated(m asks.Message) map[string]bool {
	figures := map[string]bool{}
	for _, w := range m.Want {
		for _, values := range w.Keys {
			for _, v := range values {
				figures[strings.Trim(v, `'"`)] = true
			}
		}
	}
	return figures
}

// asSpoken is a message with its words as they are said: contractions with their
// stroke, for which thumbs have no time, and figures where a phone wrote words
// that sound like them.
func asSpoken(text string) string {
	text = strings.ToLower(strings.TrimSpace(text))
	text = strings.NewReplacer("’", "'", "“", `"`, "”", `"`).Replace(text)
	for _, w := range phonesWrite {
		text = w.pattern.ReplaceAllString(text, w.said)
	}
	words := strings.Fields(text)
	for i, w := range words {
		bare := strings.TrimRight(w, ",.?!;:)")
		if full, ok := contractions[bare]; ok {
			words[i] = full + w[len(bare):]
		}
	}
	return hearing.Figures(strings.Join(words, " "))
}

// phonesWrite are the ways in which phones write figures, and how they are typed.
var phonesWrite = []struct {
	pattern *regexp.Regexp
	said    string
}{
	{regexp.MustCompile(`\btease\b|\bteas\b`), "tees"},
	{regexp.MustCompile(`\btea\b`), "tee"},
	{regexp.MustCompile(`\bmill\b`), "mil"},
	{regexp.MustCompile(`\broles\b`), "rolls"},
	{regexp.MustCompile(`\broles?\b`), "roll"},
	{regexp.MustCompile(`\bpbc\b|\bp b c\b`), "pvc"},
	{regexp.MustCompile(`\belves\b`), "ells"},
	{regexp.MustCompile(`\b(?:know|no) (?:hub|hop|hubs)\b`), "no hub"},
	{regexp.MustCompile(`\bwhy (to|and|on|into)\b`), "wye $1"},
	{regexp.MustCompile(`\b(offset|need a) said\b`), "$1 set"},
	{regexp.MustCompile(`\beights\b`), "eighths"},
	{regexp.MustCompile(`\bsixteens\b`), "sixteenths"},
	{regexp.MustCompile(`\bhalves\b`), "halfs"},
	{regexp.MustCompile(`\b(?:for|fore) (inch|foot|feet|and (?:a|an|one|three|five|seven)\b)`), "4 $1"},
	{regexp.MustCompile(`\b(?:to|too) (inch|foot|feet|and (?:a|an|one|three|five|seven)\b)`), "2 $1"},
	{regexp.MustCompile(`\bate (inch|foot|feet|and)`), "8 $1"},
	{regexp.MustCompile(`\binch in (a (?:half|quarter))`), "inch and $1"},
	{regexp.MustCompile(`\b(\d+) (?:and|&) (?:an? )?(\d+/\d+)`), "$1-$2"},
	{regexp.MustCompile(`\b(\d+) and an? half(s?)\b`), "$1-1/2$2"},
	{regexp.MustCompile(`\b(\d+) and an? (?:quarter|fourth)\b`), "$1-1/4"},
	{regexp.MustCompile(`\b(\d+) and (?:three|3) (?:quarters?|fourths?)\b`), "$1-3/4"},
	{regexp.MustCompile(`\b(\d+) and an? (?:8th|eighth)\b`), "$1-1/8"},
	{regexp.MustCompile(`\b(\d+) and an? (?:16th|sixteenth)\b`), "$1-1/16"},
	{regexp.MustCompile(`\b(\w+) and an? 8th\b`), "$1 and an eighth"},
	{regexp.MustCompile(`\b(\w+) and an? 16th\b`), "$1 and a sixteenth"},
	{regexp.MustCompile(`\b(\d+) and ([1357])8ths\b`), "$1-$2/8"},
	{regexp.MustCompile(`\b(\w+) and ([1357])/(8|4|16)\b`), "$1 and $2/$3"},
	{regexp.MustCompile(`\b(one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d+) and (\d+/\d+)`), "$1-$2"},
}

// contractions are typed without their stroke.
var contractions = map[string]string{
	"im": "i'm", "ive": "i've", "dont": "don't", "doesnt": "doesn't", "didnt": "didn't", "cant": "can't",
	"wont": "won't", "isnt": "isn't", "wasnt": "wasn't", "aint": "ain't", "whats": "what's", "thats": "that's",
	"hes": "he's", "shes": "she's", "theres": "there's", "hows": "how's", "wheres": "where's", "youre": "you're",
	"theyre": "they're", "lets": "let's", "couldnt": "couldn't", "wouldnt": "wouldn't", "shouldnt": "shouldn't",
	"havent": "haven't", "hasnt": "hasn't", "arent": "aren't", "thatll": "that'll", "itll": "it'll", "u": "you",
	"ok": "okay", "k": "okay", "gonna": "gonna", "ya": "ya", "r": "are", "ur": "your", "cuz": "cause", "bc": "because",
	"w": "with", "w/": "with", "w/o": "without", "abt": "about", "btw": "by the way", "tmrw": "tomorrow", "rn": "right now",
	"hafta": "have to", "measurment": "measurement", "wich": "which", "til": "till",
}
