"""A text of any length is shown as far as it can be read, and says how much is left."""

from app.words.bounds import beginning_words, in_one_line, shortened


def test_a_text_that_fits_is_left_alone():
    assert shortened("a\nb  c", 6) == "a\nb  c"


def test_a_longer_text_ends_with_how_many_letters_more_there_are():
    assert shortened("abcd" * 1000, 4) == "abcd… (3,996 more letters)"


def test_a_line_has_no_more_blanks_than_it_needs():
    assert in_one_line(" a\n\n b\tc ") == "a b c"


def test_a_long_line_is_cut_and_counted():
    assert in_one_line("a\n " * 20, 9) == "a a a a a… (30 more letters)"
    assert in_one_line("a\n" * 500, 10) == "a a a a a… (990 more letters)"


def test_what_a_field_shows_of_a_longer_text_is_said():
    assert beginning_words(20_000).startswith("The first 20,000 letters stand here")
