// Package timing is the clock of the hold: when to slow down, where the outbound clock
// starts, and the rules of thumb that pilots correct the next lap by. The exact answer
// that they approximate is the Circuit of package hold.
//
// A rule whose source is `common practice` is taught in many places and published with
// authority in none.
//
// NOT FOR NAVIGATION: see the caution of package abeam.
package timing
