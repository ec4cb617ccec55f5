package workbench

import (
	"os/exec"
	"runtime"
)

// opener returns the command that opens an address in the browser of the user.
func opener(system, address string) []string {
	switch system {
	case "windows":
		return []string{"rundll32", "url.dll,FileProtocolHandler", address}
	case "darwin":
		return []string{"open", address}
	}
	return []string{"xdg-open", address}
}

// openBrowser opens an address, or says why it cannot.
func openBrowser(address string) error {
	command := opener(runtime.GOOS, address)
	c := exec.Command(command[0], command[1:]...)
	if err := c.Start(); err != nil {
		return err
	}
	go func() { _ = c.Wait() }() // how it ended does not matter: the address is printed, too
	return nil
}
