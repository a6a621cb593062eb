// Package lay lays pieces on cloth.
package lay
