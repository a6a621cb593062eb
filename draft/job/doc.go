// Package job is the file of one job: what was measured, by which rules, in
// which style and on which cloth. It is what is stored, shared and synced.
//
// Decode reads one and refuses, all at once where it can, whatever it does not
// know: each Problem names the key's path, the value and what to do. Encode
// writes one; what was decoded encodes to the same bytes every time, and what
// Encode has written Decode reads back as the same Job.
//
// The file is JSON, "chalkfold": 1 being its version. Lengths are text as
// makers write them ("34 1/2 in", "86.4 cm") and stay in the unit they were
// taken in. Nothing here knows which garment is being made: style and rules
// are names and values, which package draft holds against the garment. Nor
// does it judge a measurement beyond being a length of a known name: half a
// measured client is a job too.
package job
