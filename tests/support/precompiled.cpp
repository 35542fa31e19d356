// Nothing to compile: what nearly every test reads is read here once, into the header that all of them share.
