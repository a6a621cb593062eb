package static

import "strings"

// Headers are sent with every file of the page, whoever serves it.
func (l List) Headers() map[string]string {
	return map[string]string{
		// The page runs its own program and nothing from elsewhere. Of what stands within
		// the page itself, that alone counts which it was built with.
		"Content-Security-Policy": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'" + sources(l.Scripts) +
			"; style-src 'self'" + sources(l.Styles) + "; " +
			"img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; " +
			"base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
		"X-Content-Type-Options":       "nosniff",
		"X-Frame-Options":              "DENY",
		"Referrer-Policy":              "no-referrer",
		"Cross-Origin-Opener-Policy":   "same-origin",
		"Cross-Origin-Resource-Policy": "same-origin",
		"Permissions-Policy":           "camera=(self), geolocation=(), microphone=()",
	}
}

// sources names hashes as a policy does (Content Security Policy Level 3, 2.3.1).
func sources(hashes []string) string {
	var all strings.Builder
	for _, h := range hashes {
		all.WriteString(" 'sha256-" + h + "'")
	}
	return all.String()
}
