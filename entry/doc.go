// Package entry is joining the hold: which entry the heading at the fix calls for, how
// far that decision is from being another, and what to fly.
//
// NOT FOR NAVIGATION: see the caution of package abeam.
package entry
