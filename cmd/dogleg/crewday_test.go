package main

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// A day on Juniper Street, from the first measurement to the sheet for the
// truck: six people in one group, each with their own talk and all with one cut
// list. What each reply must be is worked out here, with none of dogleg's own
// code: the cut of an offset of two 45s is set × √2 less two takeoffs.

// talker is one of the crew as the test knows them.
type talker struct {
	who     int
	spanish bool
	set     float64 // of the last ask, 0 before the first
	asked   int64   // the message
	answer  int64
	summed  bool // a sum was figured since
	piece   int  // on the list that it was added as, 0 if it wasn't
	fresh   bool // it was asked in this round, and not added
}

// sawn is a piece of the list as the test knows it.
type sawn struct {
	number      int
	cut         float64
	name, floor string
	done        bool
}

type workday struct {
	*crew
	chance  *rand.Rand
	talkers []*talker

	list     []sawn
	numbered int
	board    int64 // the message that shows it
	spanish  bool  // what the board speaks: as it was last asked for
	spoken   bool  // it was shown before, if in another group
	hasBoard bool  // one is shown or on its way
	messages int
	followed int             // pieces that followed an edit
	mute     map[string]bool // messages that are not for the bot, as a reply would name them
}

// takeoff is the crew's, measured in the morning by Dana.
const takeoff = 1.125

func cutOf(set float64) float64 { return set*math.Sqrt2 - 2*takeoff }

// tape reads a length under a yard on a tape in sixteenths: the nearest mark,
// half-way up, and whether it lies more than 1/64 off it.
func tape(inches float64) (mark, lean string) {
	n := math.Floor(inches*16 + 0.5)
	switch off := inches - n/16; {
	case off > 1.0/64:
		lean = "heavy"
	case off < -1.0/64:
		lean = "light"
	}
	whole, part, of := int(n)/16, int(n)%16, 16
	for part > 0 && part%2 == 0 {
		part, of = part/2, of/2
	}
	switch {
	case part == 0:
		return strconv.Itoa(whole), lean
	case whole == 0:
		return fmt.Sprintf("%d/%d", part, of), lean
	}
	return fmt.Sprintf("%d-%d/%d", whole, part, of), lean
}

var inSpanish = map[string]string{"": "", "heavy": "un pelo más", "light": "un pelo menos"}

// words joins what is not empty.
func words(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(p string) bool { return p == "" }), " ")
}

// row is a piece as the list has it; alone, with its pipe.
func (s sawn) row(spanish, alone bool) string {
	box := "□"
	if s.done {
		box = "■"
	}
	mark, lean := tape(s.cut)
	bends, pipe := "45s", ""
	if spanish {
		lean, bends = inSpanish[lean], "codos de 45"
	}
	if alone {
		pipe = "2 PVC DWV"
	}
	parts := slices.DeleteFunc([]string{words(mark, lean), bends, pipe, s.name, s.floor}, func(p string) bool { return p == "" })
	return fmt.Sprintf("%s %d. %s", box, s.number, strings.Join(parts, ", "))
}

func (d *workday) heading(spanish bool) string {
	open, done := d.counts()
	if spanish {
		many := func(n int, one string) string {
			if n != 1 {
				one += "s"
			}
			return fmt.Sprint(n, " ", one)
		}
		return "Lista de cortes: " + many(open, "pendiente") + ", " + many(done, "hecha")
	}
	return fmt.Sprintf("Cut list: %d open, %d done", open, done)
}

func (d *workday) counts() (open, done int) {
	for _, s := range d.list {
		if s.done {
			done++
		} else {
			open++
		}
	}
	return open, done
}

const (
	empty      = "The list is empty. After an answer say: add laundry, second floor"
	emptyVacia = "La lista está vacía. Después de una respuesta di: añadir lavandería, segundo piso"
)

// whole is the list as a message.
func (d *workday) whole(spanish bool) string {
	switch {
	case len(d.list) == 0 && spanish:
		return emptyVacia
	case len(d.list) == 0:
		return empty
	}
	lines := []string{d.heading(spanish), "2 PVC DWV"}
	for _, s := range d.list {
		lines = append(lines, s.row(spanish, false))
	}
	return strings.Join(lines, "\n")
}

// saying is a message and what its reply must begin with; whole says that it must
// be no more than that.
type saying struct {
	by    *talker
	text  string
	want  string
	whole bool
	board bool // the reply is the list
	ask   bool
	mute  bool // it is not for the bot
}

// sizes of sets are in quarters of an inch, so that each reads as it is written.
func (d *workday) anySet() float64 { return float64(20+d.chance.IntN(60)) / 4 }

func (d *workday) figured(t *talker, text string, set float64) saying {
	t.set, t.piece, t.fresh, t.summed = set, 0, true, false
	mark, lean := tape(cutOf(set))
	want := words("Cut "+mark+" in", lean) + "\n"
	if t.spanish {
		want = words("Corte "+mark+" pulg", inSpanish[lean]) + "\n"
	}
	return saying{by: t, text: text, want: want, ask: true}
}

func (d *workday) ask(t *talker) saying {
	set := d.anySet()
	length, _ := tape(set)
	if t.spanish {
		return d.figured(t, "desvío "+length+" codos de 45 2 pvc dwv", set)
	}
	return d.figured(t, length+" set 45s 2 pvc dwv", set)
}

func (d *workday) change(t *talker) saying {
	set := d.anySet()
	length, _ := tape(set)
	if t.spanish {
		return d.figured(t, "igual pero "+length, set)
	}
	return d.figured(t, "same but "+length, set)
}

var (
	rooms  = []string{"laundry", "kitchen", "bath", "attic", "porch"}
	floors = []string{"", "first floor", "second floor"}
)

// add puts the person's last answer on the list. Where no message shows the
// list, the reply does.
func (d *workday) add(t *talker) saying {
	d.numbered++
	s := sawn{number: d.numbered, cut: cutOf(t.set), name: rooms[d.chance.IntN(len(rooms))], floor: floors[d.chance.IntN(len(floors))]}
	d.list = append(d.list, s)
	t.fresh, t.piece = false, s.number
	text, want := "add ", "On the list: "
	if t.spanish {
		text, want = "añadir ", "En la lista: "
	}
	text += s.name
	if s.floor != "" {
		text += ", " + s.floor
	}
	if !d.hasBoard {
		if !d.spoken {
			d.spoken, d.spanish = true, t.spanish
		}
		d.hasBoard = true
		return saying{by: t, text: text, want: d.whole(d.spanish), whole: true, board: true}
	}
	return saying{by: t, text: text, want: want + s.row(t.spanish, true), whole: true}
}

func (d *workday) show(t *talker) saying {
	text := "list"
	if t.spanish {
		text = "lista"
	}
	if len(d.list) == 0 {
		return saying{by: t, text: text, want: d.whole(t.spanish), whole: true}
	}
	d.hasBoard, d.spoken, d.spanish = true, true, t.spanish
	return saying{by: t, text: text, want: d.whole(t.spanish), whole: true, board: true}
}

// check marks a piece as sawn, or opens it again where it was.
func (d *workday) check(t *talker) saying {
	s := &d.list[d.chance.IntN(len(d.list))]
	s.done = !s.done
	verb := map[bool]string{true: "done", false: "undone"}[s.done]
	if t.spanish {
		verb = map[bool]string{true: "hecha", false: "pendiente"}[s.done]
	}
	return saying{by: t, text: fmt.Sprintf("%s %d", verb, s.number), want: s.row(t.spanish, true), whole: true}
}

func (d *workday) drop(t *talker) saying {
	i := d.chance.IntN(len(d.list))
	s := d.list[i]
	d.list = slices.Delete(d.list, i, i+1)
	text, want := "drop", "Dropped "
	if t.spanish {
		text, want = "quitar", "Quité "
	}
	return saying{by: t, text: fmt.Sprintf("%s %d", text, s.number), want: want + s.row(t.spanish, true), whole: true}
}

// sum is arithmetic of the tape, in sixteenths.
func (d *workday) sum(t *talker) saying {
	a, b := 200+d.chance.IntN(300), 1+d.chance.IntN(150)
	first, _ := tape(float64(a) / 16)
	second, _ := tape(float64(b) / 16)
	mark, _ := tape(float64(a-b) / 16)
	t.summed = true
	unit := " in\n"
	if t.spanish {
		unit = " pulg\n"
	}
	return saying{by: t, text: first + " - " + second, want: mark + unit}
}

func (d *workday) chatter(t *talker) saying {
	return saying{by: t, text: []string{"coffee at ten", "who has the 2 in cutter", "12 set looks long to me", "ya voy"}[d.chance.IntN(4)], mute: true}
}

func (d *workday) thanks(t *talker) saying {
	if t.spanish {
		return saying{by: t, text: "gracias", want: "Cuando quieras.", whole: true}
	}
	return saying{by: t, text: "thanks", want: "Any time.", whole: true}
}

// explain is about the person's own last ask, whatever the others asked since.
func (d *workday) explain(t *talker) saying {
	length, _ := tape(t.set)
	if t.spanish {
		return saying{by: t, text: "explica", want: "Desvío " + length + ", dos codos de 45, 2 PVC DWV\n"}
	}
	return saying{by: t, text: "explain", want: "Set " + length + ", two 45s, 2 PVC DWV\n"}
}

// next is what somebody says next.
func (d *workday) next(t *talker) saying {
	if t.set == 0 {
		return d.ask(t)
	}
	switch n := d.chance.IntN(20); {
	case t.fresh && n < 12 && len(d.list) < 14:
		return d.add(t)
	case n < 3:
		return d.change(t)
	case n < 7 && len(d.list) > 0:
		return d.check(t)
	case n < 9 && len(d.list) > 8:
		return d.drop(t)
	case n == 9:
		return d.sum(t)
	case n == 10:
		return d.chatter(t)
	case n == 11:
		return d.thanks(t)
	case n == 12 && !t.summed: // which explain would be about
		return d.explain(t)
	case n == 13:
		return d.show(t)
	}
	return d.ask(t)
}

// round has each of the crew say something, all before the bot says a word, and
// checks each reply and the list. The bot may be stopped in the midst of it.
func (d *workday) round(stopped bool) {
	d.Helper()
	var all []saying
	var sent []int64
	for _, t := range d.talkers {
		all = append(all, d.next(t))
	}
	for _, s := range all {
		sent = append(sent, d.say(s))
	}
	if stopped {
		d.restart()
	}
	for i, s := range all {
		d.hears(sent[i], s)
	}
	d.listIsRight()
}

func (d *workday) say(s saying) int64 {
	d.messages++
	if s.mute {
		d.when.Add(60)
		message := d.api.Post(d.chat, map[string]any{"text": s.text, "from": member(s.by.who), "date": d.when.Load()})
		d.mute[replyTo(d.chat, message)] = true
		return message
	}
	return d.write(s.by.who, s.text)
}

// hears checks the reply to a message.
func (d *workday) hears(message int64, s saying) {
	d.Helper()
	if s.mute {
		return // at the end of the day: nothing may ever answer it
	}
	answer, text := d.reply(message)
	if !strings.HasPrefix(text, s.want) || s.whole && text != s.want {
		d.Errorf("%s: %q was answered with\n%s\nwant\n%s", people[s.by.who], s.text, text, s.want)
	}
	if s.ask {
		s.by.asked, s.by.answer = message, answer
	}
	if s.board {
		d.board = answer
	}
}

func (d *workday) listIsRight() {
	d.Helper()
	if d.hasBoard {
		d.shows(d.board, d.whole(d.spanish))
	}
}

// press has somebody press the button of some piece.
func (d *workday) press(t *talker) {
	d.Helper()
	d.messages++
	s := &d.list[d.chance.IntN(len(d.list))]
	data := d.button(d.board, s.number)
	s.done = !s.done
	if got := d.crew.press(t.who, d.board, data); got != s.row(t.spanish, true) {
		d.Errorf("%s presses piece %d and is told %q, want %q", people[t.who], s.number, got, s.row(t.spanish, true))
	}
	d.listIsRight()
}

// edit has somebody correct their last ask: the answer is corrected, and so is
// the piece that was added of it. One that is sawn stays, and the answer says so.
func (d *workday) edit(t *talker) {
	d.Helper()
	if t.asked == 0 {
		return
	}
	d.messages++
	piece := t.piece
	s := d.ask(t)
	t.piece = piece
	d.crew.change(t.who, t.asked, s.text)
	d.await("the corrected answer to "+s.text, func() bool { return strings.HasPrefix(d.plain(t.answer), s.want) })
	i := slices.IndexFunc(d.list, func(s sawn) bool { return s.number == piece })
	switch got := d.plain(t.answer); {
	case piece == 0 || i < 0:
		added := d.add(t)
		d.hears(d.say(added), added)
	case d.list[i].done:
		if d.list[i].cut != cutOf(t.set) && !strings.Contains(got, strconv.Itoa(piece)) {
			d.Errorf("piece %d is sawn, and the corrected answer is\n%s", piece, got)
		}
	case d.list[i].cut != cutOf(t.set):
		d.list[i].cut = cutOf(t.set)
		if !strings.HasSuffix(got, d.list[i].row(t.spanish, true)) {
			d.Errorf("piece %d is to follow the corrected answer\n%s", piece, got)
		}
		d.followed++
	}
	d.listIsRight()
}

// upgrade makes the group a supergroup of another number, as the server tells
// of it: in the old chat and in the new one.
func (d *workday) upgrade(to int64) {
	d.Helper()
	from := d.chat
	d.api.Migrate(from, to)
	d.api.Post(from, map[string]any{"migrate_to_chat_id": to, "from": member(0), "date": d.when.Load()})
	d.api.Post(to, map[string]any{"migrate_from_chat_id": from, "from": member(0), "date": d.when.Load()})
	d.chat, d.board, d.hasBoard = to, 0, false
	for _, t := range d.talkers {
		t.asked = 0 // what was asked before is in the old chat
	}
}

// sticks checks a plan against all ways to cut the open pieces.
func (d *workday) sticks(t *talker) {
	d.Helper()
	d.messages++
	var cuts []float64
	for _, s := range d.list {
		if !s.done {
			cuts = append(cuts, s.cut)
		}
	}
	slices.SortFunc(cuts, func(a, b float64) int { return cmp.Compare(b, a) })
	const stock, kerf = 60, 0.125
	fewest := len(cuts)
	var try func(int, []float64)
	try = func(i int, left []float64) {
		if len(left) >= fewest {
			return
		}
		if i == len(cuts) {
			fewest = len(left)
			return
		}
		for j, room := range left {
			if room >= cuts[i]+kerf {
				left[j] -= cuts[i] + kerf
				try(i+1, left)
				left[j] = room
			}
		}
		try(i+1, append(slices.Clone(left), stock-cuts[i]))
	}
	try(0, nil)
	want := fmt.Sprintf("2 PVC DWV: %d sticks of 5 ft. Fewer can't do.\n", fewest)
	if fewest == 1 {
		want = "2 PVC DWV: 1 stick of 5 ft.\n"
	}
	_, text := d.reply(d.write(t.who, "sticks 5 ft"))
	if !strings.HasPrefix(text, want) || !strings.Contains(text, fmt.Sprintf("Fittings, 2 PVC DWV: %d × 45\n", 2*len(cuts))) {
		d.Errorf("%d open pieces, %v: sticks are\n%s\nwant %q", len(cuts), cuts, text, want)
	}
}

// evening has the list exported, and holds the table against what is known of
// it.
func (d *workday) evening(t *talker) {
	d.Helper()
	d.messages++
	if _, got := d.reply(d.write(t.who, "export")); got != d.heading(false)+". The table, and a sheet for the truck." {
		d.Errorf("export: %q", got)
	}
	var table []byte
	d.await("the table", func() bool {
		for _, call := range d.api.Calls("sendDocument") {
			if strings.HasPrefix(call.Params["document"], "cut-list") && strings.HasSuffix(call.Params["document"], ".csv") && call.Status == 200 {
				table = call.Files["document"]
			}
		}
		return table != nil
	})
	rows, err := csv.NewReader(strings.NewReader(string(table))).ReadAll()
	if err != nil || len(rows) != len(d.list)+1 {
		d.Fatalf("the table has %d rows for %d pieces: %v", len(rows), len(d.list), err)
	}
	for i, s := range d.list {
		done := map[bool]string{true: "yes"}[s.done]
		inches := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(s.cut, 'f', 4, 64), "0"), ".")
		want := []string{strconv.Itoa(s.number), inches, s.name, s.floor, done}
		if r := rows[i+1]; !slices.Equal([]string{r[0], r[4], r[9], r[10], r[11]}, want) {
			d.Errorf("row %d of the table is %v, want %v", i+1, r, want)
		}
	}
}

// replyTo names a message as a reply to it does.
func replyTo(chat, message int64) string {
	return fmt.Sprintf(`%d {"message_id":%d,"allow_sending_without_reply":true}`, chat, message)
}

// silence checks that nobody was answered who didn't speak to the bot, and no
// message twice.
func (d *workday) silence() {
	d.Helper()
	answers := map[string]int{}
	for _, call := range d.api.Calls("sendMessage") {
		if call.Status == 200 {
			answers[call.Params["chat_id"]+" "+call.Params["reply_parameters"]]++
		}
	}
	if len(answers) < 200 {
		d.Errorf("only %d messages have an answer", len(answers))
	}
	for to, n := range answers {
		if n > 1 || d.mute[to] {
			d.Errorf("%d messages answer %s", n, to)
		}
	}
}

func TestCrewDay(t *testing.T) {
	d := &workday{crew: juniperStreet(t), chance: rand.New(rand.NewPCG(1903, 11)), mute: map[string]bool{}}
	for who := range people {
		d.talkers = append(d.talkers, &talker{who: who, spanish: people[who] == "Luis" || people[who] == "Marta"})
	}
	morning := d.morning()
	d.hears(d.say(morning), morning)
	for r := range 50 {
		d.round(r == 12 || r == 37)
		t := d.talkers[r%len(d.talkers)]
		if d.hasBoard && len(d.list) > 0 {
			d.press(t)
		}
		if r%2 == 1 && len(d.list) < 14 {
			d.edit(t)
		}
		switch r {
		case 20:
			d.lunch(d.talkers[0])
		case 27:
			d.upgrade(-1001207)
		case 8, 33, 48:
			d.sticks(d.talkers[1])
		}
	}
	last := d.show(d.talkers[0])
	d.hears(d.say(last), last)
	d.evening(d.talkers[0])
	d.silence()
	if d.messages < 300 || d.followed < 3 {
		t.Errorf("only %d messages, of which %d were edited with a piece on the list", d.messages, d.followed)
	}
	t.Logf("%d messages, %d pieces at the end", d.messages, len(d.list))
}

// morning is when the crew's takeoff is set, for all.
func (d *workday) morning() saying {
	return saying{by: d.talkers[0], text: "crew takeoff 2 pvc dwv 45 is 1-1/8", want: "Kept for all in this chat: 45, 2 PVC DWV, takeoff 1-1/8 in"}
}

// lunch is when the list of the morning is cleared.
func (d *workday) lunch(t *talker) {
	d.Helper()
	open, done := d.counts()
	d.list, d.numbered = nil, 0
	for _, t := range d.talkers {
		t.piece = 0
	}
	if got, want := d.crew.clearList(t.who), fmt.Sprintf("List cleared. It had %d open, %d done.", open, done); got != want && !t.spanish {
		d.Errorf("clear list is answered %q, want %q", got, want)
	}
	d.listIsRight()
}
