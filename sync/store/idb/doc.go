// Package idb keeps records in the browser's IndexedDB. It holds nothing when
// compiled for anything but a browser.
//
// Every change is a transaction of strict durability: the browser's default
// says "complete" up to two seconds before the disk has it.
package idb
