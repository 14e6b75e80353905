"""What a person with callipers is asked, in workshop words: on a page, or on a form for the bench."""
