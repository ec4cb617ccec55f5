package say

// Screen is how many characters wide an answer is.
const Screen = 80

// ScreenLines is how many lines an answer has at most, where that is possible.
const ScreenLines = 24
