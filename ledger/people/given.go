package people

// givenNames are given names in common use, folded: they tell "Smith, John,
// Jones, Mary" from four family names, and "Ellen & Mark Smith" from Ellen and
// Mark Smith. Names that are family names as often (Thomas, James, Scott) are
// left out. Common knowledge, no source.
var givenNames = wordSet("aaron adam adolf agnes alan albert alejandro alessandro alexander alexandra alfred alice alicia alison amanda amy ana anders andrea andreas andrew andres angela anita ann anna " +
	"anne annette annie anthony antoine antonio arne arnold arthur ase astrid barbara beatrice beatriz ben benjamin bernard bernhard bertha betty bill birgit bjorn bob bonnie brenda brian brigitte bruce " +
	"carl carla carlos carmen carol caroline catherine cecilia charles charlotte chris christian christina christine christopher clara claire claude claudia colin craig cristina cynthia daniel daniela david " +
	"deborah denis dennis diana diane diego don donald dora doris dorothy doug douglas edgar edith eduardo edward edwin einar elaine eleanor elena elisabeth elizabeth ella ellen elsa emilia emilio emily emma " +
	"enrique eric erica erik erika ernest ernst esther eugene eva evelyn fernando florence frances francesco francisco frank franz fred frederick friedrich gabriel gabriela gary georg gerald gerhard gertrude " +
	"gilbert giovanni giuseppe gloria grace gudrun guillermo gunnar gustav hans harald harold harry heather hector heidi heinrich heinz helen helena helene helga henri henrik henry herbert hermann hilda " +
	"hugo ian ida ignacio inga inger ingrid irene isabel ivan jack jacqueline jacques jan jane janet janice javier jean jeff jeffrey jennifer jerry jesus jill jim joan joanna joao johan johanna johannes " +
	"john jon jorge jose josef joseph josephine juan judith judy julia julian julie julio jurgen karen kari karin karl kate katharina katherine kathleen katrin keith ken kenneth kevin kjell klaus knut " +
	"kristen kristian kristin larry lars laura lauren leif leo leonard leslie linda lisa liv louise lucia lucy luigi luis luisa luiz lynn magnus manuel marcia marco marcos marcus margaret margarita maria " +
	"mariana marianne marie marilyn mario marit marjorie mark martha martin mary mathias matthew maurice max maximilian megan melissa michael michel michele miguel mike monica nancy natalia nathan nicholas " +
	"nicolas niels nils nina nora norman ola olav ole oliver oscar otto pablo pamela pat patricia patrick paul paula paulo pedro peggy peter petra philip phyllis pierre rachel rafael ralph ramon randi " +
	"raquel raul raymond rebecca rene ricardo richard rita robert roberto robin roger roland rolf ronald rosa rosemary roy rudolf ruth samuel sandra sara sarah sean sebastian sergio sharon sheila shirley " +
	"sigrid silvia simon sofia solveig sonia sophie stefan stephanie stephen steve steven stuart sue susan susanne svein sven sverre sylvia tatiana ted teresa terry theodor theresa tim timothy tina tom tomas " +
	"tony torbjorn tove trond ulf ulrich ursula valerie vera verena veronica victor victoria vincent virginia walter wendy werner wilhelm william wolfgang yvonne")
