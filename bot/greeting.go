package bot

import "dogleg/bot/wording"

// Greeting is said to those who come new, before they have said anything.
func Greeting() string { return wording.Greeting(wording.Options{}) }
