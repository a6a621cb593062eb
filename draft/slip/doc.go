// Package slip writes a job in few bytes, to travel in a link or a printed code,
// and reads it back as the same job. Encode writes a job, of which Give takes
// what is to be given away; EncodeRules writes a rule set. What Decode returns
// has passed through the reader of job files, so that nothing comes by a link
// that could not come by a file.
//
// A slip is the job file of draft/job, value by value, without its letters:
//
//	1 byte  version, 2 (1 was the form of rule sets before there were slips)
//	value   an object
//
// A value begins with a head, an unsigned varint of which the lower three bits
// say what it is and the others, n, how much:
//
//	0  a text of n bytes, which follow
//	1  the name of number n
//	2  a length of n sixteenths of an inch, as it is written: 15½ in
//	3  a length of n tenths of a centimetre: 86.4 cm
//	4  the whole number n
//	5  n: 0 null, 1 false, 2 true, 3 an object, 4 a list, 5 the end of a list
//	6  a length of n ten-thousandths of a centimetre, with four decimals
//
// An object is keys, each with its value, up to the key 0. A key is an unsigned
// varint: 0 ends the object, 1 is a key written out, a length and its letters,
// and n is the name of number n-2.
//
// The names are those of the trade in this program, by number (names.go). A
// number keeps its meaning for ever: names are added at the end. What has no
// number is written out, so that a slip can say whatever a job file can. The
// bytes are so few and so even that packing them further makes them more.
package slip
