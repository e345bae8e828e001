package bot

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
	"dogleg/store"
)

// withJobs does something with the jobs.
func (t *turn) withJobs(s parser.Statement, o order) part {
	switch o.act {
	case findJobs:
		return t.findJobs(s, o.words)
	case reuseJob:
		return t.reuse(s, o.numbers[0])
	case renameJob:
		return t.rename(s, o.numbers[0], o.words)
	case removeJob:
		return t.removeJobs(s, o.numbers)
	case removeWhat:
		return t.tell(s, false, wording.RemoveWhat, "number", strconv.FormatUint(o.numbers[0], 10))
	}
	return t.refuse(s, errFault)
}

// findJobs lists the jobs of a name, a pipe or a day: "jobs laundry", "jobs 2
// pvc", "jobs tuesday", or of several of these.
func (t *turn) findJobs(s parser.Statement, words string) part {
	search := t.searchOf(words)
	var found []store.Job
	for _, j := range t.memory.Jobs() {
		if search.finds(j) {
			found = append(found, j)
		}
	}
	if len(found) == 0 {
		return t.tell(s, true, wording.NoJobsOf, "words", words)
	}
	return said(s, true, t.jobLines(found))
}

// search is what a job must have.
type search struct {
	days  []calendarDay
	pipe  catalog.Pipe
	words []string
}

// calendarDay is one day, or the same day of any month or year where these are 0.
type calendarDay struct {
	year  int
	month time.Month
	day   int
}

// searchOf reads the words of a search: the days first, then a pipe, and what
// is left must be in the job's name or words.
func (t *turn) searchOf(text string) search {
	var s search
	var rest []string
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' })
	for i := 0; i < len(words); i++ {
		day, used := t.dayOf(words[i:])
		if used > 0 {
			s.days = append(s.days, day)
			i += used - 1
			continue
		}
		rest = append(rest, words[i])
	}
	rest = slices.DeleteFunc(rest, func(w string) bool {
		return slices.Contains([]string{"on", "of", "in", "from", "the", "del", "de", "el", "en", "los"}, w)
	})
	if a, ok := parser.Answer(strings.Join(rest, " "), parser.PipeOf); ok && len(rest) > 0 {
		s.pipe = a.Pipe
		return s
	}
	s.words = rest
	return s
}

// weekdays and months in both languages, by the beginning of the word.
var (
	weekdays = map[string]time.Weekday{
		"sunday": 0, "monday": 1, "tuesday": 2, "wednesday": 3, "thursday": 4, "friday": 5, "saturday": 6,
		"domingo": 0, "lunes": 1, "martes": 2, "miércoles": 3, "miercoles": 3, "jueves": 4, "viernes": 5, "sábado": 6, "sabado": 6,
	}
	months = []string{
		"jan ene", "feb", "mar", "apr abr", "may", "jun", "jul", "aug ago", "sep", "oct", "nov", "dec dic",
	}
)

// dayOf reads a day at the beginning of words, and says how many it used: the
// last such weekday, today, "3 nov", "nov 3", "2026-11-03".
func (t *turn) dayOf(words []string) (calendarDay, int) {
	today := t.message.When
	switch w := words[0]; w {
	case "today", "hoy":
		return dayIn(today), 1
	case "yesterday", "ayer":
		return dayIn(today.AddDate(0, 0, -1)), 1
	default:
		if weekday, ok := weekdays[w]; ok {
			back := (int(today.Weekday()) - int(weekday) + 7) % 7
			return dayIn(today.AddDate(0, 0, -back)), 1
		}
		if day, err := time.Parse(time.DateOnly, w); err == nil {
			return dayIn(day), 1
		}
	}
	if len(words) < 2 {
		return calendarDay{}, 0
	}
	for _, pair := range [][2]string{{words[0], words[1]}, {words[1], words[0]}} {
		day, err := strconv.Atoi(pair[0])
		if month := monthOf(pair[1]); err == nil && month != 0 && day >= 1 && day <= 31 {
			return calendarDay{0, month, day}, 2
		}
	}
	return calendarDay{}, 0
}

// monthOf is the month of a name such as nov, november, noviembre; 0 of none.
func monthOf(word string) time.Month {
	for i, starts := range months {
		for start := range strings.FieldsSeq(starts) {
			if strings.HasPrefix(word, start) && len(word) >= 3 && isMonth(word) {
				return time.Month(i + 1)
			}
		}
	}
	return 0
}

// isMonth tells "march" from "marble".
func isMonth(word string) bool {
	if len(word) == 3 {
		return true
	}
	for m := time.January; m <= time.December; m++ {
		if strings.EqualFold(m.String(), word) {
			return true
		}
	}
	return slices.Contains(strings.Fields("enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre"), word)
}

func dayIn(when time.Time) calendarDay { return calendarDay{when.Year(), when.Month(), when.Day()} }

func (d calendarDay) is(when time.Time) bool {
	return (d.year == 0 || d.year == when.Year()) && d.month == when.Month() && d.day == when.Day()
}

// finds says whether a job has all that is searched for; of several days, one.
func (s search) finds(j store.Job) bool {
	if len(s.days) > 0 && !slices.ContainsFunc(s.days, func(d calendarDay) bool { return d.is(j.When) }) {
		return false
	}
	if s.pipe != (catalog.Pipe{}) && !ofPipe(j, s.pipe) {
		return false
	}
	text := strings.ToLower(strings.Join([]string{j.Name, j.Asked, j.Summary}, " "))
	return !slices.ContainsFunc(s.words, func(w string) bool { return !strings.Contains(text, w) })
}

// ofPipe says whether a job is of a pipe. What its own words leave open fits
// nothing that was asked for.
func ofPipe(j store.Job, p catalog.Pipe) bool {
	ask := askedBy(j)
	if ask == nil {
		return false
	}
	is := ask.Pipe
	return (p.Size == "" || p.Size == is.Size) && (p.Material == "" || p.Material == is.Material) &&
		(p.Joint == "" || p.Joint == is.Joint) && (p.Use == "" || p.Use == is.Use) &&
		(p.Schedule == "" || p.Schedule == is.Schedule)
}

// reuse asks once more what a job asked. It is another job, figured with the
// takeoffs of today.
func (t *turn) reuse(s parser.Statement, number uint64) part {
	j, ok := t.job(int(number))
	if !ok || number == 0 {
		return t.tell(s, false, wording.NoSuchJob, "number", strconv.FormatUint(number, 10))
	}
	ask := askedBy(j)
	if ask == nil {
		return t.tell(s, false, wording.JobUnreadable, "number", strconv.FormatUint(number, 10))
	}
	t.waiting = nil
	return t.figure(s, job{ask: *ask, asked: j.Asked, name: j.Name})
}

// rename gives a job another name.
func (t *turn) rename(s parser.Statement, number uint64, name string) part {
	if j, ok := t.job(int(number)); !ok || j.Number != number {
		return t.tell(s, false, wording.NoSuchJob, "number", strconv.FormatUint(number, 10))
	}
	s.Command = &parser.Command{Verb: parser.NameJob, Number: int(number), Object: name}
	return t.name(s)
}

// removeJobs drops jobs by their numbers.
func (t *turn) removeJobs(s parser.Statement, numbers []uint64) part {
	var lines []string
	all := true
	for _, n := range numbers {
		if j, ok := t.job(int(n)); !ok || j.Number != n {
			all = false
			lines = append(lines, t.say(wording.NoSuchJob, "number", strconv.FormatUint(n, 10)))
			continue
		}
		lines = append(lines, t.drop(s, int(n)).text)
	}
	return said(s, all, strings.Join(lines, "\n"))
}
