package main

// commands are all verbs, in the order in which help shows them within their
// family. Each is declared in the file of its name.
func commands() []*command {
	return []*command{
		statusCommand(), checkCommand(), showCommand(), findCommandVerb(), historyCommand(), changesCommand(), reportCommand(), dueCommand(), reviewCommand(), readCommand(), qualityCommand(), verifyCommand(), doctorCommand(),
		initCommand(), joinCommand(), iamCommand(), newCommand(), editCommand(), setCommand(), determineCommand(), typestatusCommand(), renameCommand(), noteCommand(),
		acceptCommand(), withdrawCommand(), foundCommand(), renumberCommand(), swapCommand(), tidyCommand(), importCommand(), openCommand(), addCommand(), logCommand(), closeCommand(), incidentCommand(), enterCommand(), undoCommand(), releaseCommand(), shareCommand(),
		publishCommand(), exportCommand(), printCommand(), mirrorCommand(), backupCommand(), restoreCommand(), serveCommand(), demoCommand(),
		hooksCommand(), completionCommand(), helpCommand(), versionCommand(),
	}
}

// daily are the ten commands that `blotter` alone shows.
var daily = []string{"status", "new", "edit", "enter", "determine", "set", "find", "show", "history", "publish"}
