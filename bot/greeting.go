package bot

import "strings"

// Examples are three messages that work when typed as they stand.
func Examples() []string {
	return []string{
		"10 set 45s 2 pvc",
		"roll 9 rise 12 45s 2 copper",
		"16-15/16 - 3",
	}
}

// Greeting is said to those who come new.
func Greeting() string {
	return hello + "\n\n" + strings.Join(Examples(), "\n") + "\n\n" + helloMore
}
