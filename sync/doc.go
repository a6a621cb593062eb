// Package sync is prose only: its name would shadow the standard library's, so
// nothing is declared here.
//
// The folders below it keep a workshop's records and, when there is a
// connection, carry copies of them to its other devices and to a server that
// cannot read them. A record is opaque to all of them: it has a kind, an id, a
// revision and bytes. What the bytes mean is known to the core alone, and sync
// never imports it; how a record is taken apart into fields is handed in.
//
//	store, store/{mem,idb}       records on a device; store/storetest holds both to it
//	link                         what is lent by the fragment of an address
//	wire                         the messages between a device and a server, as bytes
//	ledger, ledger/mem           what a server keeps; ledger/ledgertest holds every one to it
//	server                       the messages over HTTP, over any ledger
//	seal                         keys, sealing, recovery words, pairing codes
//	merge                        records that were changed on several devices
//	client                       a device's side: what is sent when, and what is where
//	simtest                      devices, a server and everything that goes wrong, by a seed
//
// # Words
//
//	workshop   the devices that share one key, and the records they share
//	key        256 random bits, made on the first device; never leaves the devices
//	            but as recovery words on paper or in a pairing code
//	record     what the page keeps: a job, a client, the house rules
//	doc        a record with its fields and the history needed to merge it
//	slot       the pseudonym of a record on the server: 16 bytes that only who has
//	            the key can tell from the record's kind and id
//	entry      one state of one doc, sealed; it has an id of 16 random bytes
//	ledger     a workshop's entries on the server, in the order they came
//	position   the number and the id of an entry: "everything up to this one"
//	head       the position of a ledger's last entry
//	stub       what is left of an entry once a later one of its slot is there: its
//	            number and its id
//	chunk      a piece of a photo, sealed; it never changes
//	parcel     the key, sealed for one device that is being paired; a box on the
//	            server holds it for some minutes
//	credentials  what a device shows to the server: the workshop's name and token
//	proof      the hash of the token, all that the server keeps of it
//
// # How a copy is carried
//
// Each device has the whole of every doc. A change on a device makes a new state
// of the doc; an entry is always a whole state, never a difference. A device
// sends entries for the docs of which it knows more than the ledger does.
//
// The ledger takes entries only from a device that has seen all of it: push
// names the position up to which the device has merged, its base, and is refused
// as "behind" unless base is the head. So an entry always contains what every
// earlier entry of its slot contained, and the earlier ones can go: the ledger
// drops their bytes and leaves stubs. This is all the compaction there is. No
// device loses by it, however long it was away, because what it missed is within
// what is left; and a new device fetches one entry for each record.
//
// Merging is a join: applying an entry twice, or in another order, or one that is
// already contained, changes nothing. So a device that does not know whether a
// push arrived sends it again, or fetches its own entry back; either is right.
//
// A server that was set back to an older state (a restored backup) no longer
// knows the position of a device, or knows another entry by that number: it says
// "diverged". The device then fetches everything from the start and sends
// whatever the server lacks. Nothing that any device of the workshop has is lost.
//
// # Messages
//
// Every request is a POST below /sync/1/ with a body of one message, and every
// answer with status 200 or 409 is one message; package wire says how it is
// written. Numbers are big-endian and of fixed width. A message that is cut short
// or has anything after its end is refused as a whole. There is no compression:
// sealed bytes do not shrink, and a Content-Encoding is refused.
//
//	path           request          200             others
//	create         Create           Position        401, 403 (invite), 410
//	pull           Pull             Page            401, 410, 412 (diverged)
//	push           Push             Position        401, 409 (behind: a Page), 410, 412, 413, 507
//	close          Close            Done            401
//	usage          Ask              Usage           401, 410
//	chunk/put      Chunk            Done            401, 410, 413, 507
//	chunk/get      Names (one)      Chunk           401, 404, 410
//	chunk/missing  Names            Names           401, 410
//	chunk/drop     Names            Done            401, 410
//	box/put        Parcel           Done            401, 410, 507
//	box/take       Names (one)      Parcel          404
//
// and for all of them: 400 a malformed message, 405 not a POST, 413 too long, 415
// a Content-Encoding, 429 too many requests (Retry-After in seconds), 503 busy, try
// again. The body of a refusal other than 409 is a line of plain text for a log.
// Headers hold nothing that has a comma in it, and no answer may be kept by a
// cache (Cache-Control: no-store).
//
// create makes the ledger of the workshop that the credentials name, or finds it:
// the same again is no error. Where a server admits only the invited, the message
// carries the invitation. It answers with the head.
//
// pull asks for what follows a position, nought at first, and says how many bytes
// it wants at the most. The page holds live entries in their order, at least one
// if there is any, and the position up to which it tells everything: of its last
// entry if there is more to come, else the head.
//
// push appends its entries after base, all or none. Its answer is the position of
// its last entry: between base and that there is nothing but what was pushed. The
// same push sent again, all of whose ids are in the ledger, gets the same answer
// and appends nothing; a server that finds nothing was appended must look for the
// ids before it says so. If base is not the head the answer is 409 with the page
// that follows base, which saves the device a request. No two entries of a push
// have one id or one slot.
//
// Numbers of entries only rise, within a ledger, and may leave gaps; they stay
// below 2^53. The entry with the highest number is never removed. Stubs are kept
// for the last 65,536 entries at least; a device away for longer is told that it
// diverged, which costs it a fetch of everything, and nothing else.
//
// close removes all that the ledger and the chunks hold, for good, and leaves only
// the workshop's name and proof: every later message but close gets 410. It is how
// a workshop moves away from a lost phone, and how its data is removed.
//
// Chunks have names of 16 bytes and are kept beside the ledger, fetched only when
// a photo is wanted. Putting one that is there changes nothing and is no error, so
// that a photo is sent on from wherever the line was cut: missing answers with
// those of the names that are not there.
//
// A photo has a record, which is carried as every other and names the picture by 16
// random bytes, with its size and a small picture for lists. A device sends the
// picture when all records are even, notes that the server has it, and in which era
// (how often all had to be sent anew), and drops its chunks once no record names it
// any more. Another fetches it when it is looked at.
//
// A box needs credentials to put into, so that it costs a workshop's quota, but
// not to take from: its name, of 16 bytes, is told by the pairing code. It can be
// taken once, within ten minutes.
//
// A WebSocket at /sync/1/hints?WWWW… tells of changes. The address has the name of the
// workshop, 32 hex digits, so that whoever spreads workshops over many machines finds
// the one; from the name nothing can be had. The device sends its credentials
// as the first message, the text of the Authorization header, within five seconds.
// The server sends a Position message whenever the head has moved, and the device
// pulls. It saves waiting only; a device without it pulls now and then.
//
// # Credentials
//
//	Authorization: Bearer WWWW…TTTT…
//
// 32 hex digits of the workshop's name and 64 of its token, in lower case, without
// a separator. Both are made from the key by HChaCha20, keyed with it, over labels
// of 16 bytes (package seal); from neither can the key, the other, or any entry be
// found. The server keeps the name and the SHA-256 of the token, compares in
// constant time, and answers 401 alike for a workshop that it does not have and
// for a token that is wrong. The token has 256 bits, so its hash needs no salt and
// no stretching.
//
// # Sealing
//
// An entry's blob is XChaCha20-Poly1305 (draft-irtf-cfrg-xchacha-03; RFC 8439)
// under a key made from the workshop's for this alone:
//
//	1 byte    form of the seal, 1
//	24 bytes  nonce, random
//	the rest  ciphertext and tag
//
// Associated with it, though not within, are the form, the workshop's name, the
// slot and the entry's id, so that a blob opens only where it was put. Within are
// the length of the text, four bytes, the text, and noughts up to the next bucket:
// lengths are padded by Padmé (Nikitin et al., PETS 2019: at most 12 %), and to 256
// bytes at least. Chunks are sealed the same under a key of their own, with the
// chunk's name for the slot and no entry id.
//
// # Merging
//
// A doc is a set of fields, each with one value or, where two devices changed it
// and neither had seen the other's change, with several. A change carries
// a dot: the device, and a stamp of a hybrid logical clock (Kulkarni et al. 2014: it
// never runs behind what was seen, so that clocks that are years off do no harm to
// what is done later). A device is another one each time the program is started, so
// that one whose storage was set back does not hide what it did before. A doc knows
// the highest stamp that it has seen of each device; a value goes when the other side
// has seen its dot and no longer has it. Where several are left the one with the highest stamp is shown,
// and the others can be reached until somebody chooses; of measurements all are
// shown side by side. A field that one device emptied while another changed it
// stays as changed. A record that was cleared away for good is dead on every
// device and cannot come back under its id. What somebody changed of it who did not
// know that is kept aside under an id of its own, and sent before the other is sent as
// dead. Only docs know it where the record is put again: if the last that does is
// damaged before it was sent, the record is one like any other.
//
// Merging reads no clock and no random source; package merge says what it promises
// and its tests hold that joins commute, associate, and change nothing the second
// time. The same set of changes gives the same bytes on every device.
//
// # Limits
//
// Blobs 256 KiB, pushes 1 MiB and 256 entries, pages 1 MiB, chunks 64 KiB, names in
// one message 1,024, parcels 1 KiB; package wire has the constants and its decoders
// refuse more before they make room for it. A server has quotas of its own beside.
//
// # What the server learns
//
// The addresses devices come from and when; how many records a workshop has, in
// 256-byte and 12 % steps how large each is, when each changes, and which of them
// change together; how many photo chunks there are and when they are fetched. Not
// what kind a record is, whose, or what is in it; not how many devices there are,
// except by their addresses and habits.
//
// # Against whom
//
// A curious server, or a thief of its disk or its backups: reads no record, learns
// the above. Cannot make an entry that opens, nor move one to another slot.
//
// A hostile server can withhold entries, show an old state as the newest, show
// devices different histories, or forget everything. What a device has it keeps: an
// old state joins to nothing new. It can also hand out a hostile program, since it
// serves the page: no protocol helps against that. Builds are reproducible and their
// hashes published, so that it can be noticed; whoever trusts the server less serves
// the page from elsewhere.
//
// Someone on the line: sees TLS. Without it (a server on the shop's own network)
// sees what the server sees, and the credentials, with which she can add garbage,
// which no device opens, and close the workshop's ledger, which costs the copy on
// the server and nothing on a device.
//
// Someone with credentials but no key: the same.
//
// A member who turns hostile, or whoever finds an unlocked phone: has the key, and
// so all records up to now; can change and delete them as any member can. The key
// lies unsealed in the phone's storage, and is as safe as the phone is. "Take a
// phone off" makes a new key and seals everything anew for a new workshop, whose
// name and token the lost phone cannot tell; the others are paired anew, which they
// must be by hand, since whatever reached them by the old workshop would reach the
// lost phone as well. What it knew it goes on knowing.
//
// Someone who reads a pairing code: over the server it works once and for ten
// minutes, so whoever is second learns that it was taken. Side by side without a
// server the code holds the key itself: it is shown for some minutes, the page
// refuses it after, but who photographs it has the key. Someone who guesses: codes
// have 84 bits, keys and tokens 256.
//
// Someone who reads the recovery words has the key. Whoever loses them and every
// phone has lost the copy: nobody else can open it.
package sync
