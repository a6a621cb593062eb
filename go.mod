module chalkfold

go 1.26
