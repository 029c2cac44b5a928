//! Words of PDF syntax.

/// One word.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Token {
    Number(f64),
    /// A name, without its slash.
    Name(String),
    /// A text, whatever it says.
    Text,
    /// An operator or keyword, a bracket, or a byte that begins nothing.
    Word(String),
}

/// Reads words from a place in the bytes on.
#[derive(Clone, Debug)]
pub(crate) struct Tokens<'a> {
    bytes: &'a [u8],
    pub(crate) at: usize,
}

const fn is_space(byte: u8) -> bool {
    matches!(byte, 0 | 9 | 10 | 12 | 13 | 32)
}

const fn is_delimiter(byte: u8) -> bool {
    matches!(
        byte,
        b'(' | b')' | b'<' | b'>' | b'[' | b']' | b'{' | b'}' | b'/' | b'%'
    )
}

impl<'a> Tokens<'a> {
    pub(crate) const fn new(bytes: &'a [u8], at: usize) -> Self {
        Self { bytes, at }
    }

    fn peek(&self, ahead: usize) -> Option<u8> {
        self.bytes.get(self.at + ahead).copied()
    }

    fn skip(&mut self) {
        while let Some(byte) = self.peek(0) {
            if byte == b'%' {
                while self.peek(0).is_some_and(|b| b != b'\n' && b != b'\r') {
                    self.at += 1;
                }
            } else if is_space(byte) {
                self.at += 1;
            } else {
                break;
            }
        }
    }

    /// The bytes of a regular word.
    fn regular(&mut self) -> String {
        let from = self.at;
        while self.peek(0).is_some_and(|b| !is_space(b) && !is_delimiter(b)) {
            self.at += 1;
        }
        String::from_utf8_lossy(&self.bytes[from..self.at]).into_owned()
    }

    fn text(&mut self) {
        let mut depth = 0_usize;
        while let Some(byte) = self.peek(0) {
            self.at += 1;
            match byte {
                b'\\' => self.at += 1,
                b'(' => depth += 1,
                b')' if depth <= 1 => return,
                b')' => depth -= 1,
                _ => {}
            }
        }
    }
}

impl Iterator for Tokens<'_> {
    type Item = Token;

    fn next(&mut self) -> Option<Token> {
        self.skip();
        let first = self.peek(0)?;
        let double = self.peek(1) == Some(first);
        match first {
            b'/' => {
                self.at += 1;
                Some(Token::Name(self.regular()))
            }
            b'(' => {
                self.text();
                Some(Token::Text)
            }
            b'<' | b'>' if double => {
                self.at += 2;
                Some(Token::Word(if first == b'<' { "<<" } else { ">>" }.to_owned()))
            }
            b'<' => {
                while self.peek(0).is_some_and(|b| b != b'>') {
                    self.at += 1;
                }
                self.at += 1;
                Some(Token::Text)
            }
            _ if is_delimiter(first) => {
                self.at += 1;
                Some(Token::Word(char::from(first).to_string()))
            }
            _ => {
                let word = self.regular();
                Some(match number(&word) {
                    Some(value) => Token::Number(value),
                    None => Token::Word(word),
                })
            }
        }
    }
}

/// A number as PDF writes one: no exponent, no word.
fn number(word: &str) -> Option<f64> {
    let plain = word
        .bytes()
        .all(|b| b.is_ascii_digit() || matches!(b, b'.' | b'-' | b'+'));
    plain.then(|| word.parse().ok()).flatten()
}
