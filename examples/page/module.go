//go:build js

package main

import "syscall/js"

// main gives the page the function holdCircuit, which takes the fields of the form as a
// query and gives JSON.
func main() {
	js.Global().Set("holdCircuit", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 1 {
			return answer("")
		}
		return answer(args[0].String())
	}))
	select {} // the page calls from now on
}
