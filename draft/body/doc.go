// Package body keeps what is measured: which lengths, how each is taken, what
// is believable, and what can be estimated when it was not taken.
//
// Takings are measurements as entered. Limits refuses what no body can be,
// Check asks about what is unusual (never more than "measure again, or keep
// it"), and Complete fills what a garment wants and was not taken, each
// estimate marked and explained. Call them in that order.
//
// Plausible bands and estimates rest on one survey of adults, ANSUR II (4,082
// men and 1,986 women of the US Army, aged 17 to 58), and on common practice
// where that survey is silent. They do not hold for children. The survey took
// its waist at the navel: see NaturalWaist.
//
// The names of measurements follow ISO 8559-1. Nothing here knows which garment
// is being made.
package body
