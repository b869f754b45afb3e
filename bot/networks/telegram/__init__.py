"""Telegram, through its Bot API: one file for each thing that has to be translated.

`settings` says what can be set, `incoming` and `rendering` translate without any I/O, `client`
calls the Bot API, `sending`, `receiving` and `webhook` each do what they are named for, and
`network` puts them together.
"""
