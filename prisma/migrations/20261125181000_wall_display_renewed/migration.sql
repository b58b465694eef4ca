-- A display that is renewed gets a new code, which ends at another time than its first.
GRANT UPDATE (code_ends_at) ON wall_display TO slackwater_app;
