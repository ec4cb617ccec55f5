package accept

import "fmt"

// Risks are the probabilities of the two wrong decisions.
type Risks struct {
	Seller float64 // a good line fails
	Buyer  float64 // a bad line passes
}

// Check returns what is wrong with the risks: each must be above 0 and below one half.
func (r Risks) Check() error {
	if !(r.Seller > 0 && r.Seller < 0.5) {
		return fmt.Errorf("the seller’s risk is %g, want more than 0 and less than 0.5", r.Seller)
	}
	if !(r.Buyer > 0 && r.Buyer < 0.5) {
		return fmt.Errorf("the buyer’s risk is %g, want more than 0 and less than 0.5", r.Buyer)
	}
	return nil
}

// levels panics unless a test is possible: the bad level of what is counted is above the good one,
// which is above 0.
func levels(good, bad float64, r Risks) {
	if err := r.Check(); err != nil {
		panic("accept: " + err.Error())
	}
	if !(good > 0 && bad > good) {
		panic(fmt.Sprintf("accept: a good level of %g and a bad one of %g, want 0 < good < bad", good, bad))
	}
}
