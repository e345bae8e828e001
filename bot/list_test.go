package bot_test

import (
	"encoding/csv"
	"slices"
	"strings"
	"testing"
	"time"

	"dogleg/bot"
	"dogleg/store"

	"github.com/google/go-cmp/cmp"
)

// A set of 12 with two takeoffs of 1-1/8 is 12 × √2 − 2-1/4 = 14.7206, 14-3/4
// light; one of 20 is 28.2843 − 2-1/4 = 26.0343, 26-1/16 light.
const (
	twelve = "12 set 45s takeoff 1-1/8 2 abs"
	twenty = "20 set 45s takeoff 1-1/8 2 abs"
)

func TestAnswersGoToTheList(t *testing.T) {
	h := juniperStreet(t)
	h.say("add", "There is no cut to add")
	h.say("list", "The list is empty")
	h.say(twelve)
	h.say("add laundry, second floor", "On the list: □ 1. 14-3/4 light, 45s, 2 ABS DWV, laundry, second floor")
	h.say("kitchen: " + twenty)
	h.say("add it to the list", "On the list: □ 2. 26-1/16 light, 45s, 2 ABS DWV, kitchen")
	h.say("add job 1, bath first floor", "□ 3. 14-3/4 light, 45s, 2 ABS DWV, bath, first floor")
	h.restart()
	h.say("list", "Cut list: 3 open, 0 done\n2 ABS DWV\n□ 1. 14-3/4 light, 45s, laundry, second floor\n",
		"□ 2. 26-1/16 light, 45s, kitchen\n", "□ 3. 14-3/4 light, 45s, bath, first floor")
	h.say("done 1 and 3", "■ 1. 14-3/4 light", "■ 3. ")
	h.say("undone 3", "□ 3. 14-3/4 light")
	h.say("drop 2", "Dropped □ 2. 26-1/16 light, 45s, 2 ABS DWV, kitchen")
	h.say("drop 2", "There is no piece 2; list shows them.")
	h.say("list", "Cut list: 1 open, 1 done\n2 ABS DWV\n■ 1. ", "□ 3. ")
	h.say("clear list", "Clear the list, 1 open and 1 done?")
	h.say("no", "The list stays.")
	h.say("clear list", "Say yes, or no.")
	h.say("yes", "List cleared. It had 1 open, 1 done.")
	h.say(twelve+"\nadd bath", "2) add bath\nOn the list: □ 1. 14-3/4 light, 45s, 2 ABS DWV, bath")
}

func TestListInSpanish(t *testing.T) {
	h := juniperStreet(t)
	h.say(twelve)
	h.say("añadir lavandería, segundo piso", "En la lista: □ 1. 14-3/4 un pelo menos, codos de 45, 2 ABS DWV, lavandería, segundo piso")
	h.say("lista", "Lista de cortes: 1 pendiente, 0 hechas\n")
	h.say("hecha 1", "■ 1. ")
	h.say("pendiente 1", "□ 1. ")
	h.say("tramos 10 pies segueta", "2 ABS DWV: 1 tramo de 10 pies.", "resto 105-3/16", "Conexiones, 2 ABS DWV: 2 × codo de 45", "Corte de sierra 3/64, segueta")
	h.say("quitar 1", "Quité □ 1. ")
	h.say("vaciar lista", "La lista está vacía")
}

// An ask that got no cut leaves nothing to add, whatever was answered before;
// undo goes back to the answer before.
func TestOnlyTheLastAnswerIsAdded(t *testing.T) {
	h := juniperStreet(t)
	h.say(twelve)
	h.say("3 set 45s 4 pvc dwv", "These 45s may collide")
	h.say("add", "There is no cut to add")
	h.say(twelve)
	h.say(twenty)
	h.say("undo")
	h.say("add", "□ 1. 14-3/4 light")
	h.say("16-15/16 - 3") // looked up in passing
	h.say("add", "□ 2. 14-3/4 light")
	h.say("fall over 22 ft at 1/4 per foot, 3 pvc")
	h.say("add", "There is no cut to add")
}

// Figures and the names of pipes are of no language: who speaks Spanish is
// answered in Spanish.
func TestFiguresAreOfNoLanguage(t *testing.T) {
	h := juniperStreet(t)
	h.say("desvío 9 codos de 45", "¿Qué tubo?")
	h.say("2 abs", "Corte cerca de")
	h.say("16-15/16 - 3", "13-15/16 pulg")
	h.say("gracias", "Cuando quieras.")
	h.say("9 set 45s 2 abs", "Cut about")
	h.say("16-15/16 - 3", "13-15/16 in")
}

// A question that waits, waits on while the list is looked at.
func TestListLeavesTheQuestionWaiting(t *testing.T) {
	h := juniperStreet(t)
	h.say("9 set 45s", "What pipe?")
	h.say("list", "The list is empty")
	h.say("2 abs", "Cut about")
}

// What only looks like a word about the list stays what it was.
func TestOtherMessagesAreNotForTheList(t *testing.T) {
	h := juniperStreet(t)
	h.say("add 12 and 3-1/2", "15-1/2 in")
	h.say("drop over 22 ft at 1/4 per foot, 3 pvc", "Fall 5-1/2 in")
	h.say("takeoffs")
	h.say("export takeoffs", "None of your own yet")
}

// Each line of parallel ones is a piece.
func TestParallelLinesAreAPieceEach(t *testing.T) {
	h := juniperStreet(t)
	h.say("3 lines 8 apart, set 12 45s takeoff 1-1/8 2 abs")
	h.say("add", "□ 1. 14-3/4 light", "□ 2. 14-3/4 light", "□ 3. 14-3/4 light")
}

// Measured again it is the same piece: the list follows while it is open, and
// says so where it is sawn. Two takeoffs of 1-1/4 leave 16.9706 − 2-1/2 =
// 14.4706, 14-1/2 light.
func TestListFollowsTheJob(t *testing.T) {
	h := juniperStreet(t)
	h.say("12 set 45s 2 abs", "Cut about")
	h.say("add laundry", "□ 1. about 14")
	h.say("takeoff is 1-1/8", "Cut 14-3/4 in light\n", "On the list: □ 1. 14-3/4 light, 45s, 2 ABS DWV, laundry")
	h.say("list", "□ 1. 14-3/4 light, 45s, laundry")
	h.say("done 1")
	h.say("takeoff is 1-1/4", "Cut 14-1/2 in light\n", "Piece 1 is marked done at 14-3/4 light. Measure it.")
	h.say("list", "■ 1. 14-3/4 light, 45s, laundry")
	h.say("clear list")
	h.say("yes")
	h.say(twenty)
	h.say("add", "□ 1. 26-1/16 light")
	h.say("takeoff is 1-1/8", "Cut")
}

// The group's list is one for all; a person's own is theirs.
func TestGroupHasOneList(t *testing.T) {
	h := juniperStreet(t)
	h.crewChat("dana", twelve)
	h.crewChat("dana", "add laundry")
	if got := h.crewChat("sam", "done 1").Text; !strings.HasPrefix(got, "■ 1. 14-3/4 light") {
		t.Errorf("Sam's check: %q", got)
	}
	if got := h.crewChat("dana", "list").Text; !strings.Contains(got, "0 open, 1 done") {
		t.Errorf("Dana's list: %q", got)
	}
	h.crewChat("sam", "forget me")
	if got := h.crewChat("dana", "list").Text; !strings.Contains(got, "■ 1. ") {
		t.Errorf("the group's list went with Sam: %q", got)
	}
	h.say("list", "The list is empty")
}

// The piece of 26-1/16 light and that of 14-3/4 light, exactly 26.0343 and
// 14.7206, with two cuts of 1/8 leave 120 − 41.0049 = 78.995 of ten feet, on the
// tape 78-15/16 if it may not be more.
func TestSticks(t *testing.T) {
	h := juniperStreet(t)
	h.say("sticks 10 ft", "No piece on the list is open.")
	h.say(twelve)
	h.say("add laundry")
	h.say(twenty)
	h.say("add")
	reply := h.say("sticks 10 ft", "2 ABS DWV: 1 stick of 10 ft.\n", "1) #2 26-1/16 light, #1 14-3/4 light; rest 78-15/16 (6' 6-15/16\")",
		"Fittings, 2 ABS DWV: 4 × 45\n", "Kerf 1/8 a cut, miter saw (common practice)")
	rows := table(t, reply, "sticks-2026-11-03.csv")
	want := [][]string{
		{"pipe", "size", "stock", "stick", "piece", "tape", "inches", "name", "floor"},
		{"ABS DWV", "2", "10 ft", "1", "2", "26-1/16 light", "26.0343", "", ""},
		{"ABS DWV", "2", "10 ft", "1", "1", "14-3/4 light", "14.7206", "laundry", ""},
		{"ABS DWV", "2", "10 ft", "1", "rest", "78-15/16 (6' 6-15/16\")", "78.9952", "", ""},
	}
	if diff := cmp.Diff(want, rows); diff != "" {
		t.Error(diff)
	}
	if picture := file(t, reply, "sticks-2026-11-03.png"); !picture.Picture || !strings.HasPrefix(string(picture.Content), "\x89PNG") {
		t.Error("no picture")
	}
	h.say("sticks 20 in, tube cutter", "#2, 26-1/16 light, is longer than 20 in: couple it, or buy longer.", "No kerf: tube cutter.")
	h.say("sticks 3 m kerf 2 mm of 2 abs", "1 stick of 3 m.", "as you said")
	h.say("sticks 2 pvc", "No open piece on the list is of that pipe")
	h.say("sticks 10 feathers", "I read no stock length")
	h.say("sticks", "1 stick of 10 ft.")
	h.say("sticks 21", "1 stick of 21 ft.")
	h.say("done 1 2")
	h.say("sticks", "No piece on the list is open.")
}

// The material for the pieces of 26.03 and 14.72 in: one stick, four 45s at four
// joints. 40.75 in of pipe is one span of 48, so two hangers; four joints at 60 a
// quart are a fifteenth of one, so the smallest can.
func TestMaterial(t *testing.T) {
	h := juniperStreet(t)
	h.say("material", "No piece on the list is open.")
	h.say(twelve)
	h.say("add laundry")
	h.say(twenty)
	h.say("add")
	h.say("code IPC")
	reply := h.say("material list", "Material, 2 open pieces\n2 ABS DWV: 1 stick of 10 ft.\n4 × 45\n4 joints, cemented\n"+
		"Hangers: 2 or more, 4 ft apart at most\nABS cement: 1/4 pint\n", "Hangers by IPC table 308.5, as I recall it", "common practice")
	want := [][]string{
		{"pipe", "size", "item", "kind", "number", "unit", "by", "evidence"},
		{"ABS DWV", "2", "pipe", "120 in", "1", "stick", "", ""},
		{"ABS DWV", "2", "fitting", "45", "4", "each", "", ""},
		{"ABS DWV", "2", "joint", "solvent cement", "4", "each", "", ""},
		{"ABS DWV", "2", "hanger", "at most 48 in apart", "2", "each", "IPC table 308.5", "memory"},
		{"", "", "cement", "ABS", "0.125", "quart", "common practice", "memory"},
	}
	if diff := cmp.Diff(want, table(t, reply, "material-2026-11-03.csv")); diff != "" {
		t.Error(diff)
	}
	if picture := file(t, reply, "material-2026-11-03.png"); !picture.Picture || !strings.HasPrefix(string(picture.Content), "\x89PNG") {
		t.Error("no picture")
	}
	h.say("materials of 2 pvc", "No open piece on the list is of that pipe")
	h.say("lista de materiales 20 pies", "2 ABS DWV: 1 tramo de 20 pies.", "Soportes: 2 o más, a 4 pies a lo más")
}

func TestExport(t *testing.T) {
	h := juniperStreet(t)
	h.say("export", "The list is empty")
	h.say(twelve)
	h.say("add =cmd(), attic")
	h.say("done 1")
	reply := h.say("export", "Cut list: 0 open, 1 done.")
	want := [][]string{
		{"piece", "pipe", "size", "tape", "inches", "about", "band", "fitting", "other fitting", "name", "floor", "done"},
		{"1", "ABS DWV", "2", "14-3/4 light", "14.7206", "", "0", "45", "45", "'=cmd()", "attic", "yes"},
	}
	if diff := cmp.Diff(want, table(t, reply, "cut-list-2026-11-03.csv")); diff != "" {
		t.Error(diff)
	}
	if paper := file(t, reply, "cut-list-2026-11-03.pdf"); !strings.HasPrefix(string(paper.Content), "%PDF-") {
		t.Error("no sheet")
	}
}

// A plan of a full list is too large for a picture, and comes as a sheet of paper;
// what waits to be sent is what is on it, and no picture.
func TestPlanOfALongListIsPaper(t *testing.T) {
	h := juniperStreet(t)
	for range 11 {
		h.say("40 lines 8 apart, set 15 45s 2 pvc takeoff 1")
		h.say("add")
	}
	reply := h.say("sticks")
	waits := 0
	for _, f := range reply.Aside {
		waits += len(f.Content) + len(f.Recipe)
	}
	if waits > 200<<10 {
		t.Errorf("%d bytes wait to be sent", waits)
	}
	for _, noted := range reply.Aside[1:] {
		f, ok := h.bot.Paint(noted)
		if !ok || f.Picture || f.Name != "sticks-2026-11-03.pdf" || !strings.HasPrefix(string(f.Content), "%PDF-") {
			t.Errorf("%s, a picture: %t, %d bytes", f.Name, f.Picture, len(f.Content))
		}
	}
	if _, ok := h.bot.Paint(bot.File{Name: "x.png", Recipe: []byte(`{"Of":"what nobody knows"}`)}); ok {
		t.Error("painted what nobody knows")
	}
}

func file(t *testing.T, r bot.Reply, name string) bot.File {
	t.Helper()
	for _, f := range slices.Concat(r.Files, r.Aside) {
		if f.Name == name {
			f, ok := new(bot.Conversation).Paint(f)
			if !ok {
				t.Fatalf("%s can't be made", name)
			}
			return f
		}
	}
	t.Fatalf("no file %s with %q", name, r.Text)
	return bot.File{}
}

func table(t *testing.T, r bot.Reply, name string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(string(file(t, r, name).Content))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// The third of November is a Tuesday.
func TestJobsAreSearched(t *testing.T) {
	h := juniperStreet(t)
	h.say("laundry: " + twelve)
	h.say("kitchen: 20 set 45s takeoff 1-1/8 2 pvc dwv")
	h.now = h.now.AddDate(0, 0, 1)
	h.say("bath: 20 set 45s takeoff 1-1/8 1-1/2 pvc dwv")
	for words, want := range map[string]string{
		"laundry": "1", "2 pvc": "2", "pvc": "2 3", "1-1/2": "3", "tuesday": "1 2", "wednesday": "3", "today": "3",
		"yesterday": "1 2", "nov 3": "1 2", "4 november": "3", "2026-11-03": "1 2", "bath, tuesday": "", "kitchen on tuesday": "2",
		"2 pvc tuesday": "2", "martes": "1 2", "attic": "",
	} {
		reply := h.as("dana", "jobs "+words).Text
		if got := numbersOf(reply); got != want {
			t.Errorf("jobs %s: %s, want %s\n%s", words, got, want, reply)
		}
	}
	h.say("jobs 1", "Cut 14-3/4 in light")
	h.say("trabajos martes", "1. laundry", "2. kitchen")
	h.say("trabajos ático", "Ningún trabajo de: ático.")
}

// numbersOf are the numbers at the beginning of lines.
func numbersOf(text string) string {
	var all []string
	for line := range strings.SplitSeq(text, "\n") {
		if number, _, ok := strings.Cut(line, ". "); ok && len(number) == 1 {
			all = append(all, number)
		}
	}
	return strings.Join(all, " ")
}

func TestJobsAreReusedRenamedRemoved(t *testing.T) {
	h := juniperStreet(t)
	h.say("laundry: 12 set 45s 2 abs", "Cut about")
	h.say("kitchen: " + twenty)
	h.say("takeoff 2 abs 45 is 1-1/8")
	h.say("reuse 1", "Cut 14-3/4 in light\n") // with the takeoff of today
	h.say("add", "□ 1. 14-3/4 light, 45s, 2 ABS DWV, laundry")
	h.say("same but 20", "Cut 26-1/16 in light\n")
	h.say("rename 2 kitchen sink", "2. kitchen sink: Cut 26-1/16")
	h.say("rename 2", "Call it what?")
	h.say("rename 9 attic", "There is no job 9")
	h.say("reuse 9", "There is no job 9")
	h.say("remove job 2", "Dropped 2. kitchen sink")
	h.say("remove job 2", "There is no job 2")
	h.say("remove 1", "Remove what? A piece from the list: drop 1. A job: remove job 1.")
	if got := numbersOf(h.as("dana", "jobs").Text); got != "1 3 4" {
		t.Errorf("jobs left: %s", got)
	}
}

// edited says a message again in other words, as the transport has it said:
// with what came of it before.
func (h *house) edited(text string, message int64, replaces ...uint64) string {
	h.t.Helper()
	h.now = h.now.Add(time.Minute)
	var reply bot.Reply
	err := h.db.Update(func(tx *store.Tx) error {
		p := tx.Person(store.ChatOf("terminal", "juniper").Person("dana"))
		reply = h.bot.Handle(bot.Message{Text: text, When: h.now, From: "dana", ID: message, Edited: true, Replaces: replaces}, p)
		return nil
	})
	if err != nil {
		h.t.Fatal(err)
	}
	return reply.Text
}

// Editing is correcting: a piece follows the message that it came of.
func TestListFollowsAnEditedMessage(t *testing.T) {
	h := juniperStreet(t)
	h.say(twelve)
	asked := h.id
	h.say("add laundry", "□ 1. 14-3/4 light")
	wants(t, "edited", h.edited(twenty, asked, 1), "Cut 26-1/16 in light\n", "On the list: □ 1. 26-1/16 light, 45s, 2 ABS DWV, laundry")
	h.say("list", "Cut list: 1 open, 0 done\n2 ABS DWV\n□ 1. 26-1/16 light, 45s, laundry")

	// What can't be built leaves the piece, and says so.
	wants(t, "edited", h.edited("3 set 45s 4 pvc dwv", asked, 2), "These 45s may collide", "Still on the list as it was: □ 1. 26-1/16 light")

	// An edited add is not a second piece.
	h.say("clear list")
	h.say("yes")
	h.say(twelve)
	h.say("add laundry", "□ 1. ")
	wants(t, "edited", h.edited("add kitchen", h.id), "On the list: □ 2. 14-3/4 light, 45s, 2 ABS DWV, kitchen")
	added := h.id
	h.say("list", "Cut list: 1 open, 0 done\n2 ABS DWV\n□ 2. 14-3/4 light, 45s, kitchen")

	// Nor does it stay where the message adds nothing any more.
	wants(t, "edited", h.edited("thanks", added), "Any time")
	h.say("list", "The list is empty")
}

// What came in the same second is told apart by its message: an edit of the question
// neither takes off what was added in that second nor opens what was sawn in it.
func TestEditsInTheSameSecond(t *testing.T) {
	var memory bot.Forgetful
	var c bot.Conversation
	say := func(id int64, text string) {
		c.Handle(bot.Message{Text: text, When: morning, ID: id}, &memory)
	}
	edit := func(id int64, text string, replaces ...uint64) string {
		return c.Handle(bot.Message{Text: text, When: morning, ID: id, Edited: true, Replaces: replaces}, &memory).Text
	}
	say(1, "12 set 45s takeoff 1-1/8 2 abs")
	say(2, "add laundry")
	wants(t, "edited", edit(1, "20 set 45s takeoff 1-1/8 2 abs", 1), "On the list: □ 1. 26-1/16 light")
	if cuts := memory.Cuts(); len(cuts) != 1 || cuts[0].Number != 1 {
		t.Fatalf("the list is %+v", cuts)
	}
	say(3, "9 set 45s takeoff 1-1/8 2 abs")
	say(4, "done 1")
	edit(3, "7 set 45s takeoff 1-1/8 2 abs", 2)
	if cuts := memory.Cuts(); len(cuts) != 1 || cuts[0].Done.IsZero() {
		t.Fatalf("a sawn piece is open again: %+v", cuts)
	}
	edit(4, "undone 1")
	edit(2, "add kitchen")
	if cuts := memory.Cuts(); len(cuts) != 1 || cuts[0].Name != "kitchen" {
		t.Fatalf("an edited add leaves %+v", cuts)
	}
}

// A message that did something to pieces does it to others once it is edited.
func TestListFollowsAnEditedOrder(t *testing.T) {
	h := juniperStreet(t)
	h.say(twelve)
	for _, name := range []string{"laundry", "kitchen", "attic"} {
		h.say("add " + name)
	}
	h.say("done 2", "■ 2. ")
	done := h.id
	wants(t, "edited", h.edited("done 3", done), "■ 3. ", "On the list: □ 2. 14-3/4 light, 45s, 2 ABS DWV, kitchen")
	h.say("list", "Cut list: 2 open, 1 done", "□ 1. ", "□ 2. ", "■ 3. ")

	wants(t, "edited", h.edited("done 1 and 3", done), "■ 1. ", "■ 3. ")
	h.say("list", "Cut list: 1 open, 2 done", "■ 1. ", "□ 2. ", "■ 3. ")

	h.say("drop 1", "Dropped ■ 1. ")
	wants(t, "edited", h.edited("drop 2", h.id), "Dropped □ 2. ", "On the list: ■ 4. ")
	h.say("list", "Cut list: 0 open, 2 done", "■ 3. ", "■ 4. ")

	// What somebody did since is left alone.
	h.say("undone 3", "□ 3. ")
	opened := h.id
	h.say("done 3", "■ 3. ")
	h.say("clear list")
	h.say("yes")
	wants(t, "edited", h.edited("undone 4", opened), "The list is empty")
}
