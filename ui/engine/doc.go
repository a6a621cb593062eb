// Package engine has long work done beside the page: lays, sheets and files.
// The page hands a Task to a Pool and hears Answers; the same code (Bench) does
// the task in a Web Worker, or on the page itself where no worker will start.
//
// # The protocol
//
// A worker runs the page's own program, which finds no document and becomes a
// helper. What passes between them is small objects; data is bytes.
//
//	page → worker   {id, do, data}           one task at a time; ids only grow
//	worker → page   {id, is, now, of, data}
//
//	do "lay"     lays the pieces on one cloth with one seed
//	   "count"   counts the sheets of the pattern
//	   "sheets"  the pattern on sheets of paper, PDF
//	   "pieces"  every piece on one drawing, SVG, true to scale
//	   "diagram" a lay on one sheet of paper, PDF, or as SVG
//	   "form"    one of the other forms: cards, miniature, lesson ..., PDF, PNG or DXF
//	   "advise"  what can give where a cloth is not enough
//	   "buy"     how much of a kind of cloth to buy, at each width on sale
//	   "sketch"  the pictures of a style, SVG, for the screen
//	   "stop"    gives up the task of that id
//
//	is "up"       it has started and takes tasks; once, id 0
//	   "progress" now of so many steps are done
//	   "part"     the best lay, or the fewest sheets, so far; one of the gifts; one of the widths; one of the pictures
//	   "done"     what was asked for
//	   "fault"    why it cannot be done, as text
//	   "ended"    the program is over, whatever the reason; id 0
//
// The data of a task is an Order in JSON, with the job as a job file, those of the
// garments besides that are laid together on its cloths, and the
// language of whoever reads: the worker drafts it itself, so that the same order gives the same bytes anywhere. The
// data of a lay is that of lay.Encode: the page reads it with lay.Decode, which
// trusts nothing. Each task ends in one "done" or "fault", and a stopped one does
// too. Answers about a task that is no longer under way are passed over.
//
// Every message is a sign of life; "progress" is sent a few times a second for
// no other reason. A worker that ends, or is silent for too long while at work,
// is let go and its task given to a new one; when that happens twice to one
// task, the page does this task and all later ones itself, in slices between
// which it answers the hand. Workers without work are ended after a while, since
// a Go program gives no memory back.
//
// # A search on several cores
//
// A lay is looked for from Seeds seeds, each a task of its own with the same
// budget of steps, and the best is kept (Best). How many workers share the tasks
// changes how long it takes and never what is found.
package engine
