package static

// Headers are sent with every file of the page, whoever serves it.
func Headers() map[string]string {
	return map[string]string{
		// The page runs its own program and nothing from elsewhere.
		"Content-Security-Policy": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; " +
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
