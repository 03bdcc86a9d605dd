"""What matters before a job: rules from the shop's lessons and the job's sums; runs in the browser too."""
