//! Bytes as a row of choices; once they are used up, the first of everything.

pub(super) struct Choices<'b> {
    rest: &'b [u8],
}

impl<'b> Choices<'b> {
    pub(super) fn of(bytes: &'b [u8]) -> Self {
        Self { rest: bytes }
    }

    pub(super) fn byte(&mut self) -> u8 {
        match self.rest.split_first() {
            Some((first, rest)) => {
                self.rest = rest;
                *first
            }
            None => 0,
        }
    }

    /// One of as many.
    pub(super) fn below(&mut self, count: usize) -> usize {
        usize::from(self.byte()) % count
    }

    pub(super) fn one_of<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())]
    }

    /// True once in `times`.
    pub(super) fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == times - 1
    }
}
