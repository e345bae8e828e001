package wording

import (
	"dogleg/bot/figure"
)

// ordinates lists the marks round an elbow that is cut off at an angle, from
// the throat half-way round to the back; the other half is the same.
func (o Options) ordinates(a *figure.Answer) []string {
	if len(a.Ordinates) == 0 {
		return nil
	}
	lines := []string{o.say("ordinates")}
	for _, d := range a.Ordinates {
		if d.Eighth <= 4 {
			lines = append(lines, o.ordinate(d))
		}
	}
	return append(lines, o.say("keep the face"))
}

func (o Options) ordinate(d figure.Ordinate) string {
	back := o.bare(d.Back, exactly)
	switch d.Eighth {
	case 0:
		return o.say("throat", "back", back)
	case 4:
		return o.say("back", "arc", o.bare(d.Arc, exactly), "back", back)
	}
	return o.say("ordinate", "eighth", decimals(float64(d.Eighth), 0), "arc", o.bare(d.Arc, exactly), "back", back)
}
