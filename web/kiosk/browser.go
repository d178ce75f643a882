package kiosk

import (
	"fmt"
	"strings"
)

// Address is that of the page for a kiosk, in a language's folder ("" or as
// "de/").
func Address(port int, folder string) string {
	return fmt.Sprintf("http://127.0.0.1:%d/%s?view=exhibit&kiosk=1", port, folder)
}

// Command is the command that shows an address on the whole screen by the
// Chromium that Debian has, or one like it, with a profile folder of its own.
func Command(browser, profile, address string) []string {
	return []string{
		browser,
		"--kiosk",
		"--user-data-dir=" + profile,
		// Nothing asks, offers or tells anything.
		"--no-first-run", "--no-default-browser-check", "--noerrdialogs", "--hide-crash-restore-bubble",
		"--deny-permission-prompts", "--password-store=basic", "--disable-features=Translate,TranslateUI",
		// No finger enlarges the page or wipes it away.
		"--disable-pinch", "--overscroll-history-navigation=0",
		// Nothing is fetched or sent behind the page's back.
		"--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-breakpad",
		"--disable-domain-reliability", "--no-pings", "--check-for-update-interval=31536000",
		// The heart beats on when something lies over the window.
		"--disable-background-timer-throttling", "--disable-backgrounding-occluded-windows", "--disable-renderer-backgrounding",
		address,
	}
}

// Shell writes a command as a shell reads it.
func Shell(command []string) string {
	var words []string
	for _, word := range command {
		if word == "" || strings.ContainsFunc(word, unsafe) {
			word = "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
		}
		words = append(words, word)
	}
	return strings.Join(words, " ")
}

// unsafe reports whether a shell may read more into a letter than it is.
func unsafe(r rune) bool {
	return !strings.ContainsRune("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./:,=@%+", r)
}
