"""The shell of Drawbar: networks, conversation, store, delivery, schedule, command line."""
